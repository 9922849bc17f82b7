//! One function per household action, and the read models that pages and commands show.
