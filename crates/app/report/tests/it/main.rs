//! The pages and drawings, looked at from outside.

mod drawing;
