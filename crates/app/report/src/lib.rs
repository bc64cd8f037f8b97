//! Pages and trade drawings: the answer, the evidence, what to do next.

pub mod drawing;
pub mod page;
pub mod words;
