"""phones.py: phones and a laptop as real browsers, under a plain-http name that is not this machine's own."""
import os
import shutil
import sys
import time

SKIP = 77
sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "web"))
try:
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service
    from selenium.webdriver.common.by import By
except ImportError:
    print("SKIPPED: python3-selenium is not here")
    sys.exit(SKIP)
CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
if not CHROMIUM or not DRIVER:
    print("SKIPPED: chromium or chromedriver is not here")
    sys.exit(SKIP)

NAME = "workshop.test"


class Phone:
    """A browser of its own: cookies and what is kept are not shared with the others."""

    def __init__(self, served, code=None, size=(360, 740), dark=False, language="en-GB", settled=True):
        self.served = served
        o = webdriver.ChromeOptions()
        o.binary_location = CHROMIUM
        for a in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", f"--lang={language}", f"--accept-lang={language}",
                  f"--host-resolver-rules=MAP {NAME} 127.0.0.1"):
            o.add_argument(a)
        o.add_experimental_option("prefs", {"intl.accept_languages": language})
        o.set_capability("goog:loggingPrefs", {"browser": "SEVERE"})
        self.d = webdriver.Chrome(options=o, service=Service(DRIVER))
        self.d.set_script_timeout(60)
        self.size(*size)
        if dark:
            self.d.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": "dark"}]})
        if code:
            self.open(f"/j/{code}")
            self.wait(lambda: self.js("return !document.getElementById('places').hidden && !document.getElementById('code')"), "joined")
            self.wait(lambda: self.js("return location.hash") == "#/me", "the first visit to ask for the table")
            if settled:
                self.go("")

    def size(self, width, height, scale=1):
        self.d.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": width, "height": height, "deviceScaleFactor": scale, "mobile": False})

    def open(self, path):
        self.d.get(f"http://{NAME}:{self.served.port}{path}")

    def go(self, page):
        self.js("location.hash = '#/' + arguments[0]", page)
        time.sleep(0.25)

    def js(self, code, *a):
        return self.d.execute_script(code, *a)

    def text(self, where="main"):
        return self.js("return document.querySelector(arguments[0]).innerText", where)

    def wait(self, f, what, seconds=30):
        end = time.monotonic() + seconds
        while True:
            try:
                if f():
                    return True
            except Exception as e:  # a page on its way to another
                if time.monotonic() > end:
                    raise AssertionError(f"{what}: {e}") from e
            if time.monotonic() > end:
                raise AssertionError(f"waited in vain for: {what}\n{self.text('body')[:600]}")
            time.sleep(0.05)

    def sees(self, words, where="main", seconds=30):
        return self.wait(lambda: words in self.text(where), f"to see {words!r}", seconds)

    def tap(self, words, tag="button"):
        """Taps the first button, link or summary that says so."""
        def there():
            for e in self.d.find_elements(By.CSS_SELECTOR, tag if " " in tag else f"main {tag}"):
                if e.is_displayed() and words in (e.text, e.get_attribute("aria-label")) or (e.is_displayed() and e.text.startswith(words + ":")):
                    self.js("arguments[0].scrollIntoView({block: 'center'})", e)
                    e.click()
                    return True
            return False
        self.wait(there, f"to tap {words!r}")

    def write(self, field, words):
        e = self.d.find_element(By.ID, field)
        self.js("arguments[0].scrollIntoView({block: 'center'})", e)
        e.clear()
        e.send_keys(words)

    def pad(self, digits):
        for digit in str(digits):
            self.tap(digit, ".pad button")
        self.js("document.querySelector('.pad button.main').click()")

    def network(self, on):
        self.d.execute_cdp_cmd("Network.enable", {})
        self.d.execute_cdp_cmd("Network.emulateNetworkConditions", {"offline": not on, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1})

    def kept(self):
        return self.js("return JSON.parse(localStorage.getItem('kitbench-queue') ?? '[]').length")

    def faults(self):
        """What the browser complains about; cut networks and refused acts are no faults of the page."""
        return [e["message"] for e in self.d.get_log("browser") if "Failed to load resource" not in e["message"] and "ERR_" not in e["message"]]

    def close(self):
        self.d.quit()
