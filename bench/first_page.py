#!/usr/bin/env python3
"""How soon a phone can be used: 1.6 Mbit/s, 150 ms round trip, a processor four times slower, nothing kept from before:
first_page.py KITBENCH. From asking for the address with the code to the first page that can be tapped; five times."""
import os
import sys
import time

here = os.path.dirname(os.path.abspath(__file__))
sys.path[:0] = [os.path.join(here, "..", "tests", "web"), os.path.join(here, "..", "tests", "browser")]
from phones import NAME, Phone
from served import Served

served = Served(sys.argv[1], "demo/kit", "demo/workshop", ["--name", NAME])
took, bytes_, tap = [], [], []
for _ in range(5):
    p = Phone(served)
    p.open("/hello")
    p.d.execute_cdp_cmd("Network.enable", {})
    p.d.execute_cdp_cmd("Network.setCacheDisabled", {"cacheDisabled": True})
    p.d.execute_cdp_cmd("Network.emulateNetworkConditions", {"offline": False, "latency": 150, "downloadThroughput": 200000, "uploadThroughput": 200000})
    p.d.execute_cdp_cmd("Emulation.setCPUThrottlingRate", {"rate": 4})
    p.open(f"/j/{served.code}")
    p.wait(lambda: p.js("return location.hash") == "#/me" and p.js("return document.querySelector('main button') !== null"), "the first page")
    took.append(p.js("return performance.getEntriesByName('usable')[0]?.startTime ?? performance.now()"))
    bytes_.append(p.js("return performance.getEntriesByType('resource').filter(r => !r.name.includes('/api/live')).reduce((a, r) => a + r.transferSize, performance.getEntriesByType('navigation')[0].transferSize)"))
    p.go("row/A1/1")
    tap.append(p.js("const b = [...document.querySelectorAll('.pad button')][4], o = document.querySelector('.count'), t = performance.now(); b.click(); o.getBoundingClientRect(); return performance.now() - t"))
    p.close()
served.stop()
print(f"usable after {sorted(took)[2]:.0f} ms (aim 2000), {sorted(bytes_)[2] / 1000:.0f} kB over the wire with kit and state (aim: page under 100), a tap shows after {sorted(tap)[2]:.1f} ms (aim 100)")
