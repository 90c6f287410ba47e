"""The reliability diagram: well-formed, said in words, and its intervals as published."""

from xml.etree import ElementTree as ET

import pytest

from diagnose.calibration import calibration
from diagnose.report.pictures.reliability import reliability_diagram, wilson


def test_every_bin_is_drawn_and_said():
    found = calibration([(0.05, False)] * 19 + [(0.05, True)] + [(0.95, True)] * 9 + [(0.95, False)])
    drawn = ET.fromstring(reliability_diagram(found))  # noqa: S314 - our own text
    assert len(drawn.findall("{http://www.w3.org/2000/svg}circle")) == 2
    assert "stated 5 %, came true 5 % of 20" in drawn.attrib["aria-label"]


def test_the_interval_is_wilsons():
    from scipy.stats import binomtest

    for hits, count in [(0, 10), (5, 8), (81, 263), (15, 148)]:
        low, high = wilson(hits / count, count)
        expected = binomtest(hits, count).proportion_ci(method="wilson")
        assert (low, high) == pytest.approx((expected.low, expected.high), abs=1e-7)
    # Newcombe 1998, Statistics in Medicine 17:857-872, table I: 81 of 263 gives 0.2553 to 0.3662; from memory
    assert wilson(81 / 263, 263) == pytest.approx((0.2553, 0.3662), abs=5e-5)
