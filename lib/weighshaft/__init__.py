"""Weighshaft: a design workbook for builders of small steam locomotives."""

__version__ = "0.1.0"
