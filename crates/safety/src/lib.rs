//! The gate: may this food be put up this way, here, in this jar? A permit or a refusal.
