"""Right-of-way permits for curb outlets: rules, hydraulics, geometry, sketches and the packet."""

__version__ = "0.1.0"
