"""What the guide for sheets prints of the code: keys, facts and closed words, as tables."""
