//! One fault per patch.
