//! The journal in SQLite; the one home of entry JSON.
