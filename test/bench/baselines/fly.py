"""Flies the draws that test/bench/baselines.mjs wrote: python3 fly.py FOLDER; prints outcomes and times as JSON.

Flying alone is timed, as processor time; reading the inputs and the noise is not.
"""

import json
import sys
from pathlib import Path
from time import process_time
from types import SimpleNamespace

import numpy as np
import numpy_flights
import scipy_flights
from craft import check, table


def read(folder):
    """Inputs as columns by path, series of noise for all flights one after the other, and the request."""
    request = json.loads((folder / "request.json").read_text())
    check(request["inputs"][0])
    nodes, readings = np.array(request["nodes"]), np.array(request["readings"])
    total = nodes.sum()
    numbers = np.fromfile(folder / "noise.bin")
    along_nodes, along_readings, outages = np.split(numbers, np.cumsum([4 * total, readings.sum()]))
    x = table(request["inputs"])
    x["noise.last_node"], x["noise.last_reading"] = np.cumsum(nodes) - 1, np.cumsum(readings) - 1
    x["noise.first_node"] = x["noise.last_node"] - nodes + 1
    x["noise.first_reading"] = x["noise.last_reading"] - readings + 1
    x["noise.outages"] = np.ascontiguousarray(outages.reshape(len(nodes), -1, 2).T)
    # Of a node: gust along, across, up, and the hand's unsteadiness.
    return x, SimpleNamespace(nodes=along_nodes.reshape(total, 4), readings=along_readings), request


def timed(fly, *rest):
    begin = process_time()
    flown = fly(*rest)
    seconds = process_time() - begin
    columns = {name: [None if v != v else v for v in column.tolist()] for name, column in flown.items()}
    return {"seconds": seconds, **columns}


def main():
    x, noise, request = read(Path(sys.argv[1]))
    height = request["height"]
    few = {path: column[..., : request["scipy_flights"]] for path, column in x.items()}
    answer = {
        "numpy": timed(numpy_flights.fly, x, noise, height, request["steps"]),
        "scipy": [timed(scipy_flights.fly, few, noise, height, rtol) for rtol in request["tolerances"]],
    }
    print(json.dumps(answer))


if __name__ == "__main__":
    main()
