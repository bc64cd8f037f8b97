//! What people write at a bench, as SI numbers, and back.
