"""The Python client, installed from its wheel, against the running service and against one that fails."""

import asyncio
import math
import os
import unittest

import pandas
import pint
from shop_reckoner import AsyncReckoner, Busy, Quantity, Reckoner, Refused, Retries, Unreachable
from unsteady import Unsteady

SERVICE = os.environ["SHOP_RECKONER"]
SOON = Retries(tries=3, first_wait=0.01, longest_wait=0.02)


class Waiting:
    """The calls of `AsyncReckoner`, each carried out by itself, so that both clients stand the same tests."""

    def __init__(self, *arguments, **settings):
        self.arguments, self.settings = arguments, settings

    def __getattr__(self, name):
        async def call(*arguments, **fields):
            async with AsyncReckoner(*self.arguments, **self.settings) as shop:
                return await getattr(shop, name)(*arguments, **fields)

        return lambda *arguments, **fields: asyncio.run(call(*arguments, **fields))

    def close(self):
        pass


class Calls:
    """What both clients must do."""

    client = None

    def shop(self, address=SERVICE, **settings):
        shop = self.client(address, **{"retries": SOON, **settings})
        self.addCleanup(shop.close)
        return shop

    def test_a_drill_point_is_what_trigonometry_says(self):
        point = self.shop().ask("holes/drill-point", diameter="1/2 in", point_angle="118 deg").quantity("point_length")
        self.assertAlmostEqual(point.value, 0.25 / math.tan(math.radians(59)), places=12)
        self.assertEqual((point.unit, str(point), float(point)), ("in", "0.1502 in", point.value))

    def test_quantities_go_in_as_they_are_and_as_those_of_pint(self):
        units = pint.UnitRegistry()
        shop = self.shop()
        for diameter in ("12.7 mm", Quantity(12.7, "mm"), 12.7 * units.mm, 1.27 * units.cm, {"value": 12.7, "unit": "mm"}):
            answer = shop.ask("holes/drill-point", diameter=diameter, point_angle=118 * units.deg, units="metric")
            self.assertAlmostEqual(answer["point_length"].to_pint(units).to("in").magnitude, 0.25 / math.tan(math.radians(59)), 12)

    def test_pint_understands_every_unit_of_an_answer(self):
        units = pint.UnitRegistry()
        shop, seen = self.shop(), set()
        register = shop.calculators()
        for found in shop.batch((id, inputs) for id, one in register.items() for inputs in one.examples):
            if isinstance(found, Exception):
                raise found
            seen |= set(quantities(found.result))
        for unit in sorted(unit for _, unit in seen):
            with self.subTest(unit):
                Quantity(1.0, unit).to_pint(units)
        self.assertGreater(len({unit for _, unit in seen}), 10)

    def test_what_pint_sends_is_what_it_was(self):
        units = pint.UnitRegistry()
        speed = self.shop().ask("speeds/spindle-speed", cutting_speed=100 * units.ft / units.min, diameter=0.5 * units.inch)
        self.assertAlmostEqual(speed["exact_speed"].to_pint(units).to("rpm").magnitude, 1200 / (math.pi * 0.5), 9)

    def test_every_example_answers_the_same_alone_and_in_a_batch(self):
        shop = self.shop(piece=50)
        register = shop.calculators()
        items = [(id, one.examples[0]) for id, one in register.items()]
        for (id, inputs), found in zip(items, shop.batch(items), strict=True):
            with self.subTest(id):
                alone = shop.ask(id, **inputs)
                self.assertEqual((alone.calculator, alone.result, alone.link), (id, found.result, found.link))

    def test_a_refusal_names_every_wrong_field(self):
        with self.assertRaises(Refused) as caught:
            self.shop().ask("holes/drill-point", diameter="0.5", point_angle="0 deg")
        wrong = {error.field: error for error in caught.exception.errors}
        self.assertEqual((set(wrong), caught.exception.status), ({"diameter", "point_angle"}, 422))
        self.assertEqual(wrong["point_angle"].attempt, "118 deg")

    def test_an_unknown_calculator_is_refused(self):
        with self.assertRaises(Refused) as caught:
            self.shop().ask("holes/drill-pint", diameter="1/2 in")
        self.assertEqual(caught.exception.status, 404)

    def test_what_is_lacking_is_said(self):
        with self.assertRaises(KeyError) as caught:
            self.shop().ask("speeds/milling", diameter="1/2 in", teeth=4, cutting_speed="100 ft/min")["feed_rate"]
        self.assertRegex(str(caught.exception), "did not give feed_rate; it gave .* feed rate needs feed per tooth")

    def test_a_range_has_rows_and_a_tolerance_its_ends(self):
        ranged = self.shop().ask("holes/drill-point", diameter="0.25 in..0.5 in step 0.25 in")
        self.assertEqual([row["inputs"]["diameter"].value for row in ranged.rows], [0.25, 0.5])
        point = self.shop().ask("holes/drill-point", diameter="0.5 in ± 0.01 in")["point_length"]
        self.assertAlmostEqual(point.greatest - point.least, 0.01 / math.tan(math.radians(59)), 9)

    def test_common_fields_go_with_every_request(self):
        shop = self.shop(common={"units": "metric"})
        item = ("holes/drill-point", {"diameter": "1/2 in"})
        for found in (shop.ask(item[0], **item[1]), shop.batch([item])[0]):
            self.assertEqual(found["point_length"].unit, "mm")

    def test_a_frame_keeps_its_own_columns_and_index(self):
        frame = pandas.DataFrame({"part": ["007", "008"], "diameter": ["1/2 in", "wrong"]}, index=["a", "b"])
        answered = self.shop().frame("holes/drill-point", frame, units="inch", pick="point_length")
        self.assertEqual((list(answered.index), list(answered["part"])), (["a", "b"], ["007", "008"]))
        self.assertAlmostEqual(answered.loc["a", "point_length [in]"], 0.25 / math.tan(math.radians(59)), 12)
        self.assertRegex(answered.loc["b", "refused"], "^diameter: ")

    def test_a_frame_of_patterns_has_a_line_for_each_hole(self):
        frame = pandas.DataFrame({"part": ["a", "b"], "diameter [in]": [4.0, 2.0], "holes": [6, 3]}, index=[10, 20])
        answered = self.shop().frame("patterns/bolt-circle", frame)
        self.assertEqual(list(answered.index), [10] * 6 + [20] * 3)
        self.assertEqual(list(answered["part"]), ["a"] * 6 + ["b"] * 3)
        third = answered.loc[20].iloc[1]
        self.assertAlmostEqual(math.hypot(third["x [in]"], third["y [in]"]), 1.0, 12)

    def test_busy_is_asked_again_and_not_for_ever(self):
        with Unsteady(SERVICE, [503, 429]) as way:
            self.shop(way.address).ask("holes/drill-point", diameter="1/2 in")
            self.assertEqual(way.requests, 3)
        with Unsteady(SERVICE, [503] * 9) as way:
            with self.assertRaises(Busy):
                self.shop(way.address).ask("holes/drill-point", diameter="1/2 in")
            self.assertEqual(way.requests, 3)

    def test_a_batch_cut_off_is_asked_again_for_the_rest_alone(self):
        items = [("holes/drill-point", {"diameter": f"{size} mm"}) for size in range(1, 21)]
        with Unsteady(SERVICE, ["cut", 503, "cut"]) as way:
            found = self.shop(way.address).batch(items)
            self.assertEqual(way.requests, 4)
            self.assertEqual(way.asked, [str(at) for at in range(20)] + ["19"] * 3)
        expected = [size / 2 / math.tan(math.radians(59)) for size in range(1, 21)]
        for answer, point in zip(found, expected, strict=True):
            self.assertAlmostEqual(answer["point_length"].value, point, 10)

    def test_one_wrong_item_does_not_hold_up_the_others(self):
        items = [("holes/drill-point", {"diameter": size}) for size in ("1/2 in", "-1 in", "No.7")]
        good, wrong, number = self.shop().batch(items)
        self.assertIsInstance(wrong, Refused)
        self.assertEqual((wrong.errors[0].field, str(good["point_length"]), str(number["point_length"])), ("diameter", "0.1502 in", "0.0604 in"))

    def test_no_service_is_said(self):
        with self.assertRaisesRegex(Unreachable, "no answer in 3 tries"):
            self.shop("http://127.0.0.1:9").ask("holes/drill-point", diameter="1/2 in")
        with self.assertRaises(Unreachable):
            self.shop("http://127.0.0.1:9").batch([("holes/drill-point", {"diameter": "1/2 in"})])

    def test_a_silent_service_is_given_up(self):
        with Unsteady(SERVICE, ["silent"] * 9) as way:
            with self.assertRaisesRegex(Unreachable, "Timeout"):
                self.shop(way.address, timeout=0.2).ask("holes/drill-point", diameter="1/2 in")


def quantities(tree):
    """Every quantity of a result, as its path's end and its unit."""
    if isinstance(tree, Quantity):
        yield "", tree.unit
    elif isinstance(tree, dict):
        for name, item in tree.items():
            yield from ((name, unit) for _, unit in quantities(item))
    elif isinstance(tree, list):
        for item in tree:
            yield from quantities(item)


class Sync(Calls, unittest.TestCase):
    """`Reckoner`."""

    client = Reckoner


class Async(Calls, unittest.TestCase):
    """`AsyncReckoner`."""

    client = Waiting


if __name__ == "__main__":
    unittest.main()
