//! Crops, lots and how long they keep; recipes, scaling, jars and batches.
