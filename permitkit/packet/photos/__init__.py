"""The photographs of the site, two to a page."""

from permitkit.packet.photos.pages import photo_part

__all__ = ["photo_part"]
