//! Water tests against what others published.
