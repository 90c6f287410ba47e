import pytest

from diagnose.case import Place
from diagnose.measures.places import find_city, locate
from diagnose.problems import BadInputError


@pytest.mark.parametrize(
    ("name", "country", "latitude", "longitude"),
    [  # rounded positions of an atlas
        ("London", None, 51.5, -0.1),
        ("London", "CA", 43.0, -81.2),
        ("münchen", None, 48.1, 11.6),
        ("sao paulo", None, -23.5, -46.6),
        ("SYDNEY", None, -33.9, 151.2),
    ],
)
def test_a_city_is_found_by_any_spelling_of_its_name(
    name: str, country: str | None, latitude: float, longitude: float
) -> None:
    spot = find_city(name, country)
    assert spot.latitude == pytest.approx(latitude, abs=0.1)
    assert spot.longitude == pytest.approx(longitude, abs=0.1)


def test_a_misspelt_city_is_answered_with_the_nearest() -> None:
    with pytest.raises(BadInputError, match=r"found 'Hambrug', expected a city.*did you mean 'hamburg'"):
        find_city("Hambrug")


def test_a_city_of_another_country_is_not_taken() -> None:
    with pytest.raises(BadInputError, match="in JP"):
        find_city("Hamburg", "JP")


def test_coordinates_go_before_the_city() -> None:
    spot = locate(Place(city="Hamburg", latitude=-10, longitude=20))
    assert spot is not None
    assert (spot.latitude, spot.longitude) == (-10, 20)


def test_an_unknown_city_is_an_unknown_place() -> None:
    assert locate(Place(city="Qqqqqq")) is None
    assert locate(Place()) is None
