//! The program as a library, so that tests and benchmarks reach all of it.

pub mod library;
