//! Tests of the public face.
mod smoke;
