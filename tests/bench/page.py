"""How fast the page answers: `python -m tests.bench.page`. Ten clients at once look at a note of 60 words."""

from __future__ import annotations

import statistics
import tempfile
import threading
import time
import urllib.parse
import urllib.request
from pathlib import Path

from tests.web.conftest import Served

WORDS = (
    "willow draw august fifth plant one fifteen trifs pods three quarter inch third node down plant two fifteen trifs pods half "
    "inch top four plant three fourteen trifs pods quarter inch second node down plant four fifteen trifs flowers top node no "
    "pods plant five sixteen trifs pods half inch fourth node down stink bugs two per twenty five sweeps soil dry two inches"
)
CLIENTS, EACH = 10, 30


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        served = Served(Path(place))
        data = urllib.parse.urlencode({"text": WORDS, "date": "2026-08-05"}).encode()
        times: list[float] = []
        lock = threading.Lock()

        def client() -> None:
            for _ in range(EACH):
                began = time.perf_counter()
                urllib.request.urlopen(served.url + "look", data, timeout=30).read()
                with lock:
                    times.append((time.perf_counter() - began) * 1000)
                time.sleep(0.7)  # nobody presses faster than that

        urllib.request.urlopen(served.url + "look", data, timeout=30).read()
        threads = [threading.Thread(target=client) for _ in range(CLIENTS)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        served.stop()
    cuts = statistics.quantiles(times, n=20)
    print(
        f"{len(WORDS.split())} words, {CLIENTS} clients, {len(times)} looks: middle {statistics.median(times):.0f} ms, "
        f"95th of 100 {cuts[-1]:.0f} ms, slowest {max(times):.0f} ms"
    )


if __name__ == "__main__":
    main()
