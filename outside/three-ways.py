#!/usr/bin/env python3
"""Compares every point of the example site three ways: by hand, over MQTT and over BACnet/IP.

    three-ways.py SITE DOOR-PORT BROKER-PORT BACNET-PORT OWN-PORT

SITE is the folder of the example site, DOOR-PORT the second door of the plant, which must be frozen: mbpoll reads the
registers there, and they are scaled here, by what the manuals of the three types say and with nothing of the bridge.
mosquitto_sub and bacnet-client.js then read what the running bridge tells. Prints a line for each point that differs,
a summary, and ends with 1 where anything differs. Needs mbpoll, mosquitto-clients, node.
"""
import csv
import json
import os
import struct
import subprocess
import sys
from datetime import datetime, timedelta, timezone
from decimal import Decimal
from zoneinfo import ZoneInfo

HERE = os.path.dirname(os.path.abspath(__file__))
ZONE = ZoneInfo("Europe/Lisbon")
ROOT = "plant/quillmere/"
CONTROLLERS = {"boiler-1": ("hot-water", 1, 1000), "boiler-2": ("hot-water-old", 2, 2000), "steam-1": ("steam", 3, 3000)}
# How each manual counts: the number that travels for the one that is printed, the word order, the first bit.
WIRE = {
    "hot-water": lambda printed: int(printed) - 1,
    "hot-water-old": lambda printed: int(printed[1:]) - 1,
    "steam": lambda printed: int(printed, 16),
}
ORDER = {"hot-water": "high-word-first", "hot-water-old": "low-word-first", "steam": "high-word-first"}
FIRST_BIT = {"hot-water": 0, "hot-water-old": 0, "steam": 1}
MBPOLL = {"coil": "0", "discrete-input": "1", "input-register": "3:hex", "holding-register": "4:hex"}
WORDS = {"uint32": 2, "float32": 2, "bcd32": 2, "epoch32": 2, "uint64": 4, "float64": 4}
# Numbers of BACnetObjectType, ASHRAE 135, clause 21.
OBJECTS = {
    "analog-input": 0, "analog-value": 2, "binary-input": 3, "multi-state-input": 13, "accumulator": 23,
    "characterstring-value": 40, "datetime-value": 44, "large-analog-value": 46, "positive-integer-value": 48,
}
PRESENT_VALUE, SCALE = 85, 187
# The counts of the group, and the point that each counts.
GROUP = {"plant.firing": "flame", "plant.available": "available", "plant.locked-out": "lockout"}


class Wrong(Exception):
    pass


def rows(path):
    with open(path, encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def registers(door, unit, table, wire, count):
    said = subprocess.run(
        ["mbpoll", "-m", "tcp", "-a", str(unit), "-0", "-1", "-q", "-t", MBPOLL[table], "-r", str(wire), "-c",
         str(count), "-p", str(door), "127.0.0.1"], capture_output=True, text=True, check=False)
    read = {}
    for line in said.stdout.splitlines():
        if line.startswith("["):
            place, value = line[1:].split("]:")
            read[int(place)] = int(value.split()[0], 16)
    if sorted(read) != list(range(wire, wire + count)):
        raise Wrong(f"mbpoll read unit {unit} {table} {wire} x {count}: {said.stdout}{said.stderr}")
    return [read[wire + i] for i in range(count)]


def words_of(row, kind, door, unit):
    kind_of_format, _, size = row["format"].partition(":")
    if kind_of_format in ("text", "decimal-words"):
        count = int(size)
    elif kind_of_format == "datetime":
        count = size.split("+")[0].count("-") + 1
    else:
        count = WORDS.get(kind_of_format, 1)
    parts = row["address"].split("+")
    if len(parts) > 1:
        return [registers(door, unit, row["table"], WIRE[kind](part), 1)[0] for part in parts]
    return registers(door, unit, row["table"], WIRE[kind](parts[0]), count)


def digits(word):
    text = f"{word:04X}"
    if not text.isdecimal():
        raise Wrong(f"{text} is not made of decimal digits")
    return int(text)


def date(words, fields):
    fields, _, bcd = fields.partition("+")
    found = {}
    for word, letters in zip(words, fields.split("-")):
        for letter, byte in zip(letters, (word,) if len(letters) == 1 else (word >> 8, word & 0xFF)):
            if letter != "x":
                found[letter] = int(f"{byte:X}") if bcd else byte
    year = found["y"] if found["y"] > 99 else 2000 + found["y"]
    return datetime(year, found["m"], found["d"], found["h"], found["n"], found.get("s", 0))


def decoded(row, kind, words):
    """What the registers mean before any scale: an int, a Decimal, a str, a bool or a datetime in the site's zone."""
    kind_of_format, _, rest = row["format"].partition(":")
    order = row.get("order") or ORDER[kind]
    if "swap-bytes" in order:
        words = [(word & 0xFF) << 8 | word >> 8 for word in words]
    text_words = words
    if order.startswith("low") and kind_of_format != "datetime":
        words = words[::-1]
    number = int.from_bytes(b"".join(word.to_bytes(2, "big") for word in words), "big")
    if kind_of_format == "bit":
        return bool(number if not rest else number >> int(rest) - FIRST_BIT[kind] & 1)
    if kind_of_format == "bits":
        low, high = (int(bit) - FIRST_BIT[kind] for bit in rest.split("-"))
        return number >> low & (1 << high - low + 1) - 1
    if kind_of_format in ("uint16", "uint32", "uint64"):
        return number
    if kind_of_format == "int16":
        return number - 0x10000 if number > 0x7FFF else number
    if kind_of_format == "sign-magnitude16":
        return -(number & 0x7FFF) if number > 0x7FFF else number
    if kind_of_format == "uint8-high":
        return number >> 8
    if kind_of_format == "uint8-low":
        return number & 0xFF
    if kind_of_format in ("bcd16", "bcd32"):
        return int("".join(f"{digits(word):04d}" for word in words))
    if kind_of_format == "decimal-words":
        return int("".join(f"{word:04d}" for word in words))
    if kind_of_format == "float32":
        return struct.unpack(">f", number.to_bytes(4, "big"))[0]
    if kind_of_format == "float64":
        return struct.unpack(">d", number.to_bytes(8, "big"))[0]
    if kind_of_format == "epoch32":
        at = datetime.fromtimestamp(0, timezone.utc) + timedelta(seconds=number)
        return at.astimezone(ZONE).replace(tzinfo=None)
    if kind_of_format == "datetime":
        return date(words, rest)
    if kind_of_format == "text":
        return b"".join(word.to_bytes(2, "big") for word in text_words).decode("ascii").rstrip("\0 ")
    raise Wrong(f"nobody has taught this script the format {row['format']}")


def scaled(row, number, decimals):
    if isinstance(number, (bool, str, datetime)):
        return number
    if isinstance(number, float):
        assert not row.get("scale")
        return number
    if row.get("raw-low"):
        low, high, raw_low, raw_high = (Decimal(row[key]) for key in ("low", "high", "raw-low", "raw-high"))
        return low + (number - raw_low) * (high - low) / (raw_high - raw_low)
    scale = Decimal(10) ** -decimals if row.get("scale-by") else Decimal(row.get("scale") or 1)
    return number * scale + Decimal(row.get("offset") or 0)


class ByHand:
    """The points of one controller, read through the second door."""

    def __init__(self, site, door, name):
        kind, self.unit, self.base = CONTROLLERS[name]
        self.kind = kind
        self.rows = {row["name"]: row for row in rows(f"{site}/points/{kind}.csv")
                     if not row["format"].startswith("reserved")}
        self.causes = {row["number"]: row["text"] for row in rows(f"{site}/codes/{kind}-causes.csv")}
        self.words = {point: words_of(row, kind, door, self.unit) for point, row in self.rows.items()}
        self.numbers = {point: decoded(row, kind, self.words[point]) for point, row in self.rows.items()}

    def value(self, point):
        """The value and its text where it is a state; or the reason why there is none."""
        row = self.rows[point]
        if row.get("no-value") and self.words[point] == [int(row["no-value"], 16)]:
            return "no-sensor", None
        if row.get("when") and not self.applies(row["when"]):
            return "not-applicable", None
        decimals = self.numbers[row["scale-by"]] if row.get("scale-by") else 0
        return None, scaled(row, self.numbers[point], decimals)

    def applies(self, condition):
        other, _, wanted = condition.partition("=")
        return self.text(other, self.numbers[other]) in wanted.split("|")

    def text(self, point, number):
        states = dict(state.split("=") for state in (self.rows[point].get("states") or "").split("|") if state)
        number = str(int(number))
        return states[number] if states else self.causes[number]


def topics(port):
    said = subprocess.run(
        ["mosquitto_sub", "-V", "5", "-p", str(port), "-t", ROOT + "#", "--retained-only", "-W", "5", "-F", "%t %p"],
        capture_output=True, text=True, check=False).stdout
    told = {}
    for line in said.splitlines():
        topic, _, payload = line.partition(" ")
        if payload.startswith("{"):
            told[topic.removeprefix(ROOT).replace("/", ".")] = json.loads(payload, parse_float=Decimal)
    return told


def client(bacnet, own, *arguments):
    said = subprocess.run(
        ["node", os.path.join(HERE, "bacnet-client.js"), f"127.0.0.1:{bacnet}", str(own), *arguments],
        capture_output=True, text=True, check=False).stdout
    answer = json.loads(said[said.index("{"):], parse_float=float)
    if "error" in answer:
        raise Wrong(f"BACnet {arguments}: {answer['error']}")
    return {key: values[0] if len(values) == 1 else values for key, values in answer.items()}


def objects(site, bacnet, own):
    """For each controller and point that has one its object, the value there, its scale and its state numbers."""
    bound = {}
    for name, (kind, _, base) in {**CONTROLLERS, "plant": ("plant", 0, 0)}.items():
        for row in rows(f"{site}/bindings.csv"):
            if row["type"] == kind and not row["gone"] and row["object"] in OBJECTS:
                bound[name, row["point"]] = (f"{OBJECTS[row['object']]}:{base + int(row['offset'])}", row)
    names = [place for place, _ in bound.values()]
    values, scales = {}, {}
    for i in range(0, len(names), 20):
        values.update(client(bacnet, own, "read-multiple", ",".join(names[i:i + 20]), str(PRESENT_VALUE)))
    counters = [place for place in names if place.startswith(f"{OBJECTS['accumulator']}:")]
    for i in range(0, len(counters), 20):
        scales.update(client(bacnet, own, "read-multiple", ",".join(counters[i:i + 20]), str(SCALE)))
    return {point: (row, values[f"{place}:{PRESENT_VALUE}"], scales.get(f"{place}:{SCALE}"))
            for point, (place, row) in bound.items()}


def shown(row, value):
    """In the unit that is shown; the script knows the one pair of units that the example site converts between."""
    if row.get("show-unit"):
        assert (row["unit"], row["show-unit"]) == ("min", "h")
        return value / Decimal(60)
    return value


def is_near(said, value):
    """Equal when rounded to the last digit that is said: a quotient may need more of them than are told."""
    return abs(said - value) * 2 <= Decimal(10) ** said.as_tuple().exponent


def is_same_float(row, said, value):
    """Of float32 in the value itself; MQTT tells the fewest digits that make it again."""
    form = ">d" if row["format"] == "float64" else ">f"
    return struct.pack(form, said) == struct.pack(form, value)


def by_mqtt(hand, point, told):
    why, value = hand.value(point)
    if why:
        return told.get("reason") == why and told["value"] is None
    if told["quality"] != "good":
        return False
    said = told["value"]
    if isinstance(said, dict):
        return said["number"] == int(value) and said["text"] == hand.text(point, value)
    if isinstance(value, bool) or isinstance(value, str):
        return said == value
    if isinstance(value, datetime):
        return datetime.fromisoformat(said) == value
    if isinstance(value, float):
        return is_same_float(hand.rows[point], float(said), value)
    if hand.rows[point].get("show-unit") or hand.rows[point].get("raw-low"):
        return is_near(Decimal(said), shown(hand.rows[point], value))
    return Decimal(said) == value


def by_bacnet(hand, point, found):
    row, said, scale = found
    why, value = hand.value(point)
    if why:
        return True  # The flags tell that; the present value stays at the last good one.
    kind = row["object"]
    if kind == "multi-state-input":
        return dict(state.split("=") for state in row["states"].split("|"))[str(int(value))] == str(said)
    if kind == "binary-input":
        return said == int(value)
    if kind == "characterstring-value":
        return said == str(value)
    if kind == "datetime-value":
        return is_same_time(said, value)
    value = value if isinstance(value, float) else shown(hand.rows[point], Decimal(value))
    if kind == "accumulator":
        # A power of ten is exact; any other scale is a REAL of 24 bits.
        return abs(Decimal(said) * factor(scale) - value) <= value * Decimal("6e-8")
    if kind == "large-analog-value":
        return abs(said - float(value)) <= 1e-9 * abs(float(value))
    if kind == "positive-integer-value":
        return said == int(value)
    return struct.pack(">f", said) == struct.pack(">f", float(value))


def factor(scale):
    """Of the choice BACnetScale, which the client leaves in its bytes: a float, or an integer power of ten."""
    data = bytes(scale["value"]["data"])
    return Decimal(struct.unpack(">f", data)[0]) if len(data) == 4 else Decimal(10) ** int.from_bytes(data, "big", signed=True)


def is_same_time(said, value):
    """The client takes the site's time for this machine's own, and tells the instant."""
    return datetime.fromisoformat(said.replace("Z", "+00:00")).astimezone().replace(tzinfo=None) == value


class Comparison:
    def __init__(self):
        self.compared = {"MQTT": 0, "BACnet": 0}
        self.different = 0

    def add(self, way, is_same, what):
        self.compared[way] += 1
        if not is_same:
            self.different += 1
            print(f"{what}, {way}")


def compare_points(hand, name, told, found, comparison):
    for point, words in hand.words.items():
        read = " ".join(f"{word:04X}" for word in words)
        by_hand = f"{name}.{point}: registers {read}, by hand {hand.value(point)}"
        if f"{name}.{point}" in told:
            said = told[f"{name}.{point}"]
            comparison.add("MQTT", by_mqtt(hand, point, said), f"{by_hand}, told {said}")
        if (name, point) in found:
            said = found[name, point]
            comparison.add("BACnet", by_bacnet(hand, point, said), f"{by_hand}, told {said}")


def compare_counts(hands, told, found, comparison):
    for name, counted in GROUP.items():
        count = sum(hand.numbers[counted] for hand in hands)
        group, _, point = name.partition(".")
        if name in told:
            said = told[name]
            comparison.add("MQTT", said["value"] == count, f"{name}: by hand {count}, told {said}")
        if (group, point) in found:
            said = found[group, point][1]
            comparison.add("BACnet", said == count, f"{name}: by hand {count}, told {said}")


def main():
    site, door, broker, bacnet, own = sys.argv[1], *map(int, sys.argv[2:])
    told, found = topics(broker), objects(site, bacnet, own)
    comparison = Comparison()
    hands = []
    for name in CONTROLLERS:
        hand = ByHand(site, door, name)
        compare_points(hand, name, told, found, comparison)
        hands.append(hand)
    compare_counts(hands, told, found, comparison)
    print(f"compared by hand: {comparison.compared['MQTT']} points over MQTT, {comparison.compared['BACnet']} over"
          f" BACnet; {comparison.different} differ")
    return 1 if comparison.different else 0


if __name__ == "__main__":
    sys.exit(main())
