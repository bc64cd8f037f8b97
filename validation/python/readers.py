"""Recipe of data/readers.json: logs read by gpxpy and pynmea2, lines on the ellipsoid by geographiclib.

The logs are made up here, from a seed, and recorded with what the libraries read in them. Speeds of
pynmea2 are in knots, of gpxpy in metres a second.

Prints one JSON document. To record it again:

    python readers.py > ../data/readers.json

`python readers.py time FILE` reads a GPX or NMEA file of any size with the library for it and prints how
long that took.
"""

import json
import math
import platform
import random
import sys
import time
from datetime import datetime, timedelta, timezone
from importlib import metadata

import gpxpy
import pynmea2
from geographiclib.geodesic import Geodesic

EXACT = "the same decimal text read twice, then one factor"
START = datetime(2026, 6, 15, 23, 59, 30, tzinfo=timezone.utc)


def case(name, recipe, given, expect, within):
    return {"name": name, "recipe": recipe, "given": given, "expect": expect, "within": within}


def within(because, **limits):
    return {**limits, "because": because}


def speeds(rng, count):
    """Up to speed and down again, never faster than a craft changes it."""
    at, all_ = 5.0, []
    for _ in range(count):
        at = min(max(at + rng.uniform(-3.0, 3.5), 0.5), 30.0)
        all_.append(at)
    return all_


def gpx_text(rng, version, place):
    body = []
    for i, speed in enumerate(speeds(rng, 40)):
        when = (START + timedelta(seconds=i)).isoformat().replace("+00:00", "Z")
        value = f"{speed:.3f}"
        inside = {
            "own": f"<speed>{value}</speed>",
            "extensions": f"<extensions><x:speed>{value}</x:speed></extensions>",
            "block": f"<extensions><x:TrackPointExtension><x:speed>{value}</x:speed></x:TrackPointExtension></extensions>",
        }[place]
        lat, lon = 45 + rng.uniform(0, 1e-6), -93 + rng.uniform(0, 1e-6)
        body.append(f'<trkpt lat="{lat:.7f}" lon="{lon:.7f}"><time>{when}</time>{inside}</trkpt>')
        if i == 19:
            body.append("</trkseg><trkseg>")
    home = f"http://www.topografix.com/GPX/{version.replace('.', '/')}"
    return (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<gpx version="{version}" creator="made up" xmlns="{home}" '
        f'xmlns:x="urn:invented:points">\n<trk><trkseg>{chr(10).join(body)}</trkseg></trk>\n</gpx>\n'
    )


def gpx_speed(point):
    if point.speed is not None:
        return point.speed
    for extension in point.extensions:
        for element in extension.iter():
            if element.tag.endswith("speed"):
                return float(element.text)
    return None


def gpx_cases():
    for at, (version, place) in enumerate([("1.0", "own"), ("1.1", "extensions"), ("1.1", "block")]):
        text = gpx_text(random.Random(at), version, place)
        track = gpxpy.parse(text)
        segments = [s for t in track.tracks for s in t.segments]
        first = segments[0].points[0].time
        yield case(
            f"version {version}, speed in {place}",
            "gpxpy.parse(text); point.speed, or the element named speed among the extensions",
            {"text": text},
            {
                "zero_s": first.timestamp(),
                "time_s": [[(p.time - first).total_seconds() for p in s.points] for s in segments],
                "speed_m_s": [[gpx_speed(p) for p in s.points] for s in segments],
            },
            within(EXACT, relative=1e-15),
        )


def summed(body):
    total = 0
    for c in body:
        total ^= ord(c)
    return f"${body}*{total:02X}"


def nmea_text(rng, spoilt):
    lines = []
    for i, speed in enumerate(speeds(rng, 60)):
        when = START + timedelta(seconds=i)
        clock, date = when.strftime("%H%M%S.00"), when.strftime("%d%m%y")
        knots, course = speed * 3600 / 1852, (90 + rng.uniform(-40, 40)) % 360
        burst = [
            summed(f"GPRMC,{clock},A,4500.1234,N,09300.5678,W,{knots:.3f},{course:.1f},{date},,,A"),
            summed(f"GPGGA,{clock},4500.1234,N,09300.5678,W,1,{5 + i % 8},0.9,200.0,M,-30.0,M,,"),
            summed(f"GPVTG,{course:.1f},T,,M,{knots:.3f},N,{speed * 3.6:.3f},K,A"),
        ]
        rng.shuffle(burst)
        lines += burst
    if spoilt:
        for at in rng.sample(range(len(lines)), 12):
            broken = list(lines[at])
            where = rng.randrange(7, len(broken) - 4)
            broken[where] = chr(ord(broken[where]) ^ 1)
            lines[at] = "".join(broken)
    return "\r\n".join(lines) + "\r\n"


def nmea_read(text):
    """Speed in knots and course in degrees of each RMC that holds, and the lines that do not."""
    all_, wrong = [], 0
    for line in text.splitlines():
        try:
            sentence = pynmea2.parse(line, check=True)
        except pynmea2.ParseError:
            wrong += 1
            continue
        if sentence.sentence_type == "RMC" and sentence.status == "A":
            all_.append((sentence.datetime.timestamp(), float(sentence.spd_over_grnd), float(sentence.true_course)))
    return all_, wrong


def nmea_cases():
    for at, spoilt in enumerate([False, True]):
        text = nmea_text(random.Random(10 + at), spoilt)
        all_, wrong = nmea_read(text)
        yield case(
            "twelve lines with one letter changed" if spoilt else "all sums right, lines of each second shuffled",
            "pynmea2.parse(line, check=True) of every line; the valid RMC",
            {"text": text},
            {
                "zero_s": all_[0][0],
                "time_s": [t - all_[0][0] for t, _, _ in all_],
                "speed_m_s": [v * 1852 / 3600 for _, v, _ in all_],
                "course_rad": [math.radians(c) for _, _, c in all_],
                "wrong": wrong,
            },
            within(EXACT, relative=1e-15),
        )


def lines():
    rng = random.Random(20)
    for name, reach in [("near", 0.01), ("a day's run", 1.0), ("anywhere", 170.0)]:
        rows, expect = [], []
        for _ in range(40):
            lat, lon = rng.uniform(-75, 75), rng.uniform(-179, 179)
            to_lat = max(-89.0, min(89.0, lat + rng.uniform(-reach, reach)))
            to_lon = (lon + rng.uniform(-reach, reach) + 180) % 360 - 180
            found = Geodesic.WGS84.Inverse(lat, lon, to_lat, to_lon)
            rows.append([lat, lon, to_lat, to_lon])
            expect.append([found["s12"], math.radians(found["azi1"]), math.radians(found["azi2"])])
        yield case(
            name,
            "Geodesic.WGS84.Inverse",
            {"lat_lon_lat_lon_deg": rows},
            {"distance_m_azimuths_rad": expect},
            within(
                "the solver claims 15 nm; a course is good to that over the distance; the plane to 0.1 mm below 2 km",
                distance_m=3e-8,
                across_m=1e-7,
                plane_m=1e-4,
            ),
        )


def timed(path):
    start = time.perf_counter()
    with open(path, encoding="utf-8") as file:
        if path.endswith(".gpx"):
            track = gpxpy.parse(file)
            fixes = sum(1 for t in track.tracks for s in t.segments for p in s.points if gpx_speed(p) is not None)
        else:
            fixes = 0
            for line in file:
                try:
                    sentence = pynmea2.parse(line, check=True)
                except pynmea2.ParseError:
                    continue
                if sentence.sentence_type == "RMC" and sentence.status == "A":
                    fixes += float(sentence.spd_over_grnd) >= 0
    return {"seconds": time.perf_counter() - start, "fixes": fixes}


def main():
    if sys.argv[1:2] == ["time"]:
        print(json.dumps(timed(sys.argv[2])))
        return
    document = {
        "recipe": "python/readers.py",
        "libraries": {
            "python": ".".join(platform.python_version_tuple()[:2]),
            "gpxpy": metadata.version("gpxpy"),
            "pynmea2": pynmea2.__version__,
            "geographiclib": metadata.version("geographiclib"),
        },
        "tracks": list(gpx_cases()),
        "sentences": list(nmea_cases()),
        "lines": list(lines()),
    }
    print(json.dumps(document, indent=1))


if __name__ == "__main__":
    main()
