//! The printed tables of data/ as typed rows with their sources; states facts, decides nothing.
