"""Valves and motion."""

from .valves import SlideValve, ValveMotion

__all__ = ["SlideValve", "ValveMotion"]
