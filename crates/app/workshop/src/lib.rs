//! The job: entries, their fold, what an act does, and the answers.
