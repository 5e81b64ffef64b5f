"""From text to frozen models; every fault of a file is told at once."""
