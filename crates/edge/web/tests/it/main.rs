//! The bench over real HTTP, on a port of its own.

mod bench;
mod journey;
mod pages;
mod safety;
