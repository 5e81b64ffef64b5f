"""The checks of papers: the permits and their forms, and what goes in with them."""
