"""What to heed, before anything else is read."""

from __future__ import annotations

_BY_FUEL = {
    "gas": (
        "A gas tank is a pressure vessel too: tested and certified by the code in force, filled "
        "with liquid to 0.8 to 0.85 of its volume at most and never warmed beyond the hand, with a "
        "relief valve. No propane in a tank made for the engine.",
        "Fill the gas tank in the open, away from fire and cellar: the gas is heavier than air. "
        "Light the match before the gas, and smell for leaks before either.",
    ),
    "spirit": (
        "Spirit burns with a flame that is not seen in daylight. Fill cold, away from the engine, "
        "and never into a lamp that burns or is hot; keep water at hand, which mixes with it.",
    ),
    "coal": (
        "A coal fire gives off carbon monoxide, also while it dies: light it in the open. Drop the "
        "fire at once where the water can no longer be seen in the glass.",
    ),
}


def cautions(fuel: str, pressure: float) -> tuple[str, ...]:
    """Return what to heed.

    Parameters
    ----------
    fuel : "coal", "gas" or "spirit".
    pressure : working, bar.
    """
    return (
        "This certifies nothing. Design, brazing or welding, test and certificate of a boiler "
        "belong to the code in force and to a licensed or club inspector: his word before metal "
        "is cut, and the certificates of the material kept.",
        f"Test cold and full of water, every bubble let out, first at {2 * pressure:.1f} bar or "
        "what the code says; never with air or steam, which burst with force.",
        *_BY_FUEL.get(fuel, ()),
        "The safety valve is set and sealed at the test. One that does not hold the pressure "
        "within a tenth of the working pressure at full fire, steam shut off, is too small.",
    )
