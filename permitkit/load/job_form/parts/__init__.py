"""The questions themselves, a module for each stretch of the way from the house to the counter."""
