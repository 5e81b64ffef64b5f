"""The drawings of a job as files of their own, for screens, e-mail and drafting programs."""

from permitkit.packet.sketches.files import KINDS, sketch_files

__all__ = ["KINDS", "sketch_files"]
