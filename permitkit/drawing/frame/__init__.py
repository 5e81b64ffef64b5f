"""What stands round a drawing: border, title block, stamp space, north, scales, legend, notes."""

from permitkit.drawing.frame.border import continuation, drawing_room, framed
from permitkit.drawing.frame.title_block import TitleBlock

__all__ = ["TitleBlock", "continuation", "drawing_room", "framed"]
