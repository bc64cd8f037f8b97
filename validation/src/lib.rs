//! Published and outside-library values with their recipes.
