//! The rules of the house as tests. ARCHITECTURE.md says why each stands.
#![expect(
    clippy::unwrap_used,
    reason = "a rule that cannot read the tree must fail"
)]

mod factors;
mod files;
mod formulas;
mod layers;
mod scan;
mod sources;
mod testing;
mod tree;
