//! Amounts that cannot be mixed up: exact masses and volumes, kitchen measures, elevation.
