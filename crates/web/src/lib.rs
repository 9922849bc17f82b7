//! Addresses, forms and pages on the home network's web face.
