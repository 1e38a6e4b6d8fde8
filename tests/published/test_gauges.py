"""Loading gauges, platforms, buffers and couplings against their sources.

The sources are listed in `weighshaft/trade/data/README-gauges.md` under the keys named here.
"""

from __future__ import annotations

import pytest

from weighshaft.trade.gauges import LOADING_GAUGES, outline, published

FULL = 1435.0


def test_nem_102() -> None:
    # L1, row of size I: BL1 130, BL2 87, BL3 114, HL1 30, HL3 118, HL4 150 mm
    found = outline("NEM 102", 32.0, 45.0, FULL)
    assert found is not None
    assert found.kind == "structure"
    assert found.corners == ((0, 57), (30, 57), (30, 65), (118, 65), (150, 43.5))
    # row of size 0: 94, 63, 82, 21, 85, 109; a scale of 1:43.5 is not its 1:45
    small = outline("NEM 102", 45.0, 32.0, FULL)
    assert small is not None
    assert small.corners == ((0, 41), (21, 41), (21, 47), (85, 47), (109, 31.5))
    assert outline("NEM 102", 16.0, 89.0, FULL) is None


def test_mini_rail_widths() -> None:
    # L2: overall width of the engine, 10 in at 3/4 in scale and 18 in at 1 1/2 in scale
    for ratio, inches in ((24.0, 6.0), (16.0, 10.0), (12.0, 12.0), (8.0, 18.0), (4.0, 36.0)):
        found = outline("Mini-Rail Corporation", ratio, 127.0, FULL)
        assert found is not None
        assert 2 * found.corners[0][1] == pytest.approx(inches * 25.4)


def test_full_size_gauges_at_scale() -> None:
    # L3: half width 1575 mm up to 3500 mm, 4650 mm high amid
    union = outline("VDEV loading gauge I", 32.0, 45.0, FULL)
    assert union is not None
    assert union.corners[1] == pytest.approx((3500 / 32, 1575 / 32))
    assert union.top == pytest.approx(4650 / 32)
    # L4: 10 ft 8 in wide, 15 ft 1 in high
    plate = outline("AAR Plate B", 16.0, 89.0, FULL)
    assert plate is not None
    assert 2 * plate.corners[0][1] == pytest.approx(128 * 25.4 / 16)
    assert plate.top == pytest.approx(181 * 25.4 / 16)
    # neither is for narrow gauge
    assert outline("AAR Plate B", 16.0, 45.0, 610.0) is None
    assert len(LOADING_GAUGES) == 4


@pytest.mark.parametrize(
    ("gauge", "ratio", "apart", "height", "plus", "minus"),
    [
        # L6; sizes III to X the same in L7
        (32.0, 45.0, 39.5, 23.6, 0.7, 1.0), (45.0, 32.0, 54.5, 33.0, 0.5, 1.5),
        (64.0, 22.5, 77.7, 47.1, 0.5, 2.5), (89.0, 16.0, 109.4, 66.3, 0.5, 5.0),
        (127.0, 11.0, 159.0, 96.5, 0.5, 7.5), (184.0, 8.0, 219.0, 132.5, 1.0, 10.5),
        (260.0, 5.5, 318.0, 193.0, 1.0, 15.0),
    ],
)  # fmt: skip
def test_nem_303(
    gauge: float, ratio: float, apart: float, height: float, plus: float, minus: float
) -> None:
    high = published("NEM 303", "buffer_height", ratio, gauge, FULL)
    wide = published("NEM 303", "buffers_apart", ratio, gauge, FULL)
    assert high is not None
    assert wide is not None
    assert (wide.value, high.value) == (apart, height)
    assert (high.low, high.high) == pytest.approx((height - minus, height + plus))
    # the standard follows 1750 mm and 1060 mm of full size to a fiftieth
    assert wide.value * ratio == pytest.approx(1750, rel=0.02)
    assert high.value * ratio == pytest.approx(1060, rel=0.005)


def test_buffers_and_couplings_of_full_size() -> None:
    # L7, L9, L10: 940 to 1065 mm above the rail, 1750 mm apart
    union = published("UIC buffers", "buffer_height", 16.0, 89.0, FULL)
    assert union is not None
    assert (union.low, union.high) == pytest.approx((940 / 16, 1065 / 16))
    # L11: about 3 ft 4 in above the rail and 5 ft 8 in apart
    british = published("RCH 1887", "buffers_apart", 16.0, 89.0, FULL)
    assert british is not None
    assert british.value == pytest.approx(68 * 25.4 / 16)


def test_ibls_couplers() -> None:
    # L8: 4-7/16 in +0 -3/16 at 1 1/2 in scale, 2-1/4 in at 3/4 in scale
    big = published("IBLS coupler", "coupling_height", 8.0, 184.15, FULL)
    assert big is not None
    assert big.value == pytest.approx(4.4375 * 25.4)
    assert (big.low, big.high) == pytest.approx((4.25 * 25.4, 4.4375 * 25.4))
    small = published("IBLS coupler", "coupling_height", 16.0, 89.0, FULL)
    assert small is not None
    assert small.value == pytest.approx(2.25 * 25.4)


def test_platforms() -> None:
    # L12: 915 mm high and 730 mm from the running edge; before, 3 ft and 2 ft 4 3/4 in
    for name, high, off in (
        ("British, 915 mm high", 915.0, 730.0), ("British, 3 ft high", 914.4, 28.75 * 25.4),
    ):  # fmt: skip
        height = published(name, "platform_height", 16.0, 89.0, FULL)
        offset = published(name, "platform_offset", 16.0, 89.0, FULL)
        assert height is not None
        assert offset is not None
        assert (height.value, offset.value) == pytest.approx((high / 16, off / 16))
