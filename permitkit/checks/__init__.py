"""Questions put to a job: each names one fault."""
