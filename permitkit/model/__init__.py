"""Frozen data: the job, the rules, the verdicts."""
