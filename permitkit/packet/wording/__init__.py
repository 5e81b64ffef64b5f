"""Templates: where they are looked for, what they may name, and whether they can be used."""
