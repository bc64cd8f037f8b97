//! Published and outside-library values with their recipes.
//!
//! Nothing here is shipped. `python/` holds the recipes and one locked environment to run them in,
//! `data/` what they printed, `tests/` the comparison of our numbers with both.
