"""The questions, one module a part of the job."""
