//! What a person may write, and what comes of it.
