"""Everything computed from job and rules before anything is judged."""
