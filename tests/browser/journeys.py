#!/usr/bin/env python3
"""Journeys through the pages in real browsers, over plain HTTP: journeys.py KITBENCH."""
import time

from phones import NAME, Phone, sys
from served import Checks, Device, Served

served = Served(sys.argv[1], "demo/kit", "demo/workshop", ["--name", NAME])
check = Checks()
journeys = []


def journey(f):
    journeys.append(f)
    return f


laptop = Phone(served, served.leader_code, size=(1280, 800))
one, two = Phone(served, served.code), Phone(served, served.code)
line = Device(served, served.code)  # what the server says, without a browser


def row(box, n):
    return line.state().get(f"row/{box}/{n}", {})


@journey
def not_a_secure_context():
    assert one.js("return isSecureContext") is False and one.js("return location.hostname") == NAME


@journey
def wrong_code_by_hand_then_the_right_one():
    p = Phone(served)
    p.open("/")
    p.sees("Type the four characters")
    p.write("code", "ZZZZ")
    p.tap("Join")
    p.wait(lambda: p.text("[role=alert]"), "the wrong code to be told")
    p.write("code", " ".join(served.code.lower()))
    p.tap("Join")
    p.sees("This device")
    p.close()


@journey
def first_visit_asks_for_the_table():
    p = Phone(served, served.code, settled=False)
    p.sees("Table or place")
    p.write("place", "table 7")
    p.tap("Save")
    p.sees("now here: table 7", "#top")
    p.close()


@journey
def start_up_page():
    p = Phone(served)
    p.open("/hello")
    p.sees("This device reaches the laptop")
    p.sees("There and back")
    p.tap("To the first page", "a")
    p.sees("Type the four characters")
    p.close()


@journey
def where_we_stand_is_the_first_page():
    one.go("")
    one.sees("Where we stand")
    one.sees("of 174 rows counted")


@journey
def everything_is_one_tap_away():
    one.go("")
    for words, page in (("Stock check", "Boxes and bags"), ("Find", "maker's number"), ("Work", "At work now"), ("More", "Batteries"), ("Where we stand", "What stops us")):
        one.tap(words, "nav a")
        one.sees(page)


@journey
def count_as_listed_goes_on_to_the_next_row():
    one.go("row/A1/1")
    one.tap("All here")
    one.sees("row 2")
    one.wait(lambda: row("A1", 1).get("counted"), "the count")


@journey
def count_on_the_pad_with_a_damaged_one():
    one.go("row/A1/2")
    one.tap("damaged")
    one.tap("1", ".pad button")
    one.tap("usable")
    one.pad(24)
    one.wait(lambda: row("A1", 2).get("damaged") == 1 and row("A1", 2)["usable"] == 24, "24 usable, 1 damaged")


@journey
def the_others_see_it_within_a_second_or_two():
    two.go("box/A1")
    one.go("row/A1/3")
    one.pad(1)
    two.sees("missing", seconds=5)


@journey
def double_tap_is_one_count():
    one.go("row/A1/4")
    one.js("const b = [...document.querySelectorAll('main button')].find(b => b.textContent.startsWith('All here')); b.click(); b.click();")
    one.wait(lambda: row("A1", 4).get("counted"), "the count")
    time.sleep(0.7)
    assert row("A1", 4)["times"] == 1 or one.kept() == 0 and row("A1", 4)["times"] == 1, row("A1", 4)
    one.go("waiting")
    for _ in range(3):
        if "Drop mine" in one.text():
            one.tap("Drop mine")


@journey
def erase_and_nothing_typed():
    one.go("row/A1/5")
    one.tap("7", ".pad button")
    one.tap("Erase", ".pad button")
    one.js("document.querySelector('.pad button.main').click()")
    one.sees("Not written", "#notice")
    assert not row("A1", 5).get("counted")


@journey
def all_here_in_one_tap():
    one.go("box/A2")
    one.js("window.confirm = () => true")
    one.tap("All here: the 3 rows not counted yet")
    one.sees("all right")
    one.wait(lambda: all(row("A2", n).get("counted") for n in (1, 2, 3)), "three rows")


@journey
def not_on_the_list_with_markup():
    one.go("box/A2")
    one.tap("Something that is on no row", "summary")
    one.write("what", "<img src=x onerror=alert(1)>")
    one.write("many", "2")
    one.tap("Write down")
    one.sees("2 × <img src=x onerror=alert(1)>")
    assert one.js("return document.querySelectorAll('main img').length") == 0


@journey
def a_pair_takes_a_box_and_the_other_sees_it():
    one.go("me")
    one.write("place", "table 1")
    one.js("document.querySelectorAll('input[name=here]')[3].click()")
    one.tap("Save")
    one.sees("Where we stand")
    one.go("box/B1")
    one.tap("We have it now")
    two.go("boxes")
    two.sees("with table 1")
    one.js("window.confirm = () => true")
    one.tap("Everything is back where it came from")
    two.wait(lambda: "with table 1" not in two.text(), "it is back")


@journey
def blind_recount_shows_only_the_leader_the_difference():
    one.go("row/B1/1")
    one.tap("All here")
    one.wait(lambda: row("B1", 1).get("counted"), "the count")
    two.go("me")
    two.js("document.querySelectorAll('input[name=here]')[5].click()")
    two.tap("Save")
    two.sees("Where we stand")
    two.go("row/B1/1")
    two.sees("Somebody counted this row already")
    two.pad(1)
    laptop.go("")
    laptop.sees("Second count differs: B1 row 1")
    two.go("")
    two.sees("To decide today")
    assert "Second count differs" not in two.text()


@journey
def offline_counts_are_kept_and_sent_once():
    one.go("row/B2/1")
    one.network(False)
    one.tap("All here")
    one.sees("kept here: 1", "#top")
    assert one.kept() == 1 and not row("B2", 1).get("counted")
    one.network(True)
    one.wait(lambda: one.kept() == 0, "it to be sent", 40)
    assert row("B2", 1)["times"] == 1


@journey
def offline_views_not_yet_opened_work():
    two.go("")
    two.network(False)
    two.go("box/C1")
    two.sees("In packing order")
    two.go("step/S20")
    two.sees("Point the carriages")
    two.network(True)


@journey
def offline_reload_keeps_what_was_entered():
    one.go("row/B2/2")
    one.network(False)
    one.tap("All here")
    one.sees("kept here: 1", "#top")
    try:
        one.d.refresh()
    except Exception:
        pass
    one.network(True)
    one.open("/")
    one.wait(lambda: row("B2", 2).get("counted"), "what was kept to be sent after the next opening")
    one.wait(lambda: one.kept() == 0, "an empty queue")
    assert row("B2", 2)["times"] == 1


@journey
def a_conflict_is_shown_and_decided():
    one.go("row/B2/3")
    one.network(False)
    one.pad(2)
    one.sees("kept here: 1", "#top")
    assert line.act("count", **{"in": "B2", "line": 3, "usable": 3, "seen": -1})[0] == 200
    one.network(True)
    one.wait(lambda: "to decide: 1" in one.text("#top"), "the conflict", 40)
    one.go("waiting")
    one.sees("Somebody else was there before")
    one.tap("Write mine down all the same")
    one.wait(lambda: row("B2", 3).get("usable") == 2, "mine to be written")


@journey
def server_killed_and_started_again():
    one.go("row/C1/1")
    served.kill()
    one.tap("All here")
    one.sees("kept here: 1", "#top")
    served.start()
    one.wait(lambda: one.kept() == 0, "it to be sent", 60)
    line.connection = None
    assert row("C1", 1)["times"] == 1
    one.sees("live", "#top", 40)
    laptop.open(f"/j/{served.leader_code}")  # each start shows a new link for the leader
    laptop.sees("now here", "#top")


@journey
def back_button():
    one.go("boxes")
    one.go("box/A1")
    one.go("row/A1/5")
    one.d.back()
    one.sees("In packing order")
    one.d.back()
    one.sees("Boxes and bags")


@journey
def find_by_words_and_part_page():
    one.go("find")
    one.write("search", "m10 locking")
    one.sees("locking nut M10")
    one.tap("locking nut M10\nD-935 · ISO 7040 M10-8", "a")
    one.sees("Where it lies")
    one.sees("Steps that use it")


@journey
def find_nothing():
    one.go("find")
    one.write("search", "zeppelin")
    one.sees("No part fits")


@journey
def true_scale_after_the_bank_card():
    one.go("scale")
    one.js("const s = document.getElementById('slider'); s.value = 428; s.dispatchEvent(new Event('input'))")
    assert abs(one.js("return document.querySelector('.card').getBoundingClientRect().width") - 428) < 1
    one.tap("They are equal")
    one.go("part/D-935")
    one.wait(lambda: one.js("return document.querySelectorAll('svg.picture').length") == 1, "the drawing")
    svg = one.js("const b = document.querySelector('svg.picture').viewBox.baseVal, r = document.querySelector('svg.picture').getBoundingClientRect(); return [r.width / b.width]")
    assert abs(svg[0] - 428 / 85.6 * 25.4 / 72) < 0.01, svg


@journey
def missing_page_follows_the_counts():
    one.go("missing")
    one.sees("not counted yet")
    one.sees("to be sent")


@journey
def compartment_label():
    one.go("part/D-935")
    one.tap("Its compartment", "summary")
    one.write("label", "tray 2, B4")
    one.tap("Save")
    one.wait(lambda: line.state().get("label/D-935", {}).get("label") == "tray 2, B4", "the label")


@journey
def learner_starts_a_plain_step_only_when_it_may():
    one.go("step/S20")
    one.sees("it follows S19")


@journey
def leader_starts_a_step_and_it_is_at_work():
    laptop.go("step/S01")
    for e in laptop.js("return [...document.querySelectorAll('input[name=who]')].slice(0, 6)"):
        laptop.js("arguments[0].click()", e)
    laptop.tap("Start")
    laptop.wait(lambda: line.state().get("step/S01", {}).get("state") == "running", "S01 to run")
    two.go("work")
    two.sees("S01")
    two.sees("running")


@journey
def supervised_step_is_refused_to_a_shared_phone():
    two.go("step/S02")
    two.sees("never without the network")
    two.js("const s = document.getElementById('confirm'); s.value = s.options[1].value")
    two.tap("Start")
    two.sees("Not written", "#notice")


@journey
def sign_off_with_a_pin():
    laptop.go("crew")
    laptop.tap("Change Juniper", "summary")
    laptop.js("document.getElementById('pin-P2').closest('details').open = true")
    laptop.write("pin-P2", "4931")
    laptop.js("document.getElementById('pin-P2').closest('form').querySelector('button').click()")
    laptop.wait(lambda: "code/P2" in line.state(), "the PIN")
    status, answer = line.act("start", step="S02", people=["P1", "P3"], confirm="P3", pin="0000")
    assert status in (400, 409), answer


@journey
def finish_a_step_with_an_open_hold_point():
    laptop.go("step/S01")
    laptop.tap("Done")
    laptop.wait(lambda: line.state().get("step/S01", {}).get("state") == "done", "S01 to be done")
    two.go("work")
    two.wait(lambda: "S02" in two.text() or "No step can start now" in two.text(), "what comes next")


@journey
def blocked_with_a_reason_stops_us():
    one.go("step/S03")
    one.tap("Blocked", "summary")
    one.write("reason", "the bench is wet")
    one.tap("Blocked")
    two.go("")
    two.sees("the bench is wet")


@journey
def undo_from_the_last_entries():
    one.go("row/C1/2")
    one.pad(1)
    one.wait(lambda: row("C1", 2).get("counted"), "the count")
    one.go("recent")
    one.js("window.confirm = () => true")
    one.tap("Undo")
    one.wait(lambda: not row("C1", 2).get("counted"), "it to be undone")


@journey
def attendance_by_tapping():
    laptop.go("crew")
    laptop.js("document.querySelector('main > ul:last-of-type details').open = true")
    laptop.tap("Otter: comes")
    laptop.wait(lambda: any(d["person"] == "P8" and not d["comes"] for d in line.state()["session/1"]["differs"]), "Otter to stay away")


@journey
def sessions_by_a_rule_in_words():
    laptop.go("crew")
    laptop.tap("More sessions", "summary")
    laptop.write("rule", "Tuesdays 18:30 to 20:30, 4 May to 18 May 2027, not 11 May")
    laptop.js("document.getElementById('rule').closest('form').querySelector('button').click()")
    laptop.wait(lambda: sum(k.startswith("session/") for k in line.state()) == 16, "two more sessions")


@journey
def somebody_new_in_the_crew():
    laptop.go("crew")
    laptop.tap("Somebody new", "summary")
    laptop.write("name-new", "Newt <b>")
    laptop.js("document.getElementById('name-new').closest('form').querySelector('button').click()")
    laptop.sees("Newt <b>")


@journey
def release_says_no_with_reasons():
    one.go("release")
    one.sees("No. What is missing")
    one.sees("never that the machine is safe")


@journey
def closing_count_and_tools():
    one.go("closing")
    one.tap("Count the tools", "summary")
    one.tap("All as they should be")
    one.tap("Write down")
    one.wait(lambda: any(k.startswith("tool/") and "here" in v for k, v in line.state().items()), "the tools")
    one.tap("Everything is here")


@journey
def battery_reading():
    one.go("batteries")
    one.sees("The label comes first")
    one.tap("Write down", "summary")
    one.js("const f = document.querySelector('main section details form') ?? document.querySelector('main section details'); const i = f.querySelectorAll('input'); i[0].value = '12,8'; i[1].value = '24'; f.querySelector('button').click()")
    one.sees("12.8 V")


@journey
def the_plan_comes_by_itself():
    one.go("plan")
    one.sees("Finished by the plan", seconds=60)
    one.sees("Session 1")


@journey
def german_by_choice():
    two.go("me")
    two.js("const l = document.getElementById('language'); l.value = 'de'; l.dispatchEvent(new Event('change'))")
    two.sees("Dieses Gerät")
    assert two.js("return document.documentElement.lang") == "de"
    two.go("")
    two.sees("Wie es steht")


@journey
def german_by_the_browser():
    p = Phone(served, served.code, language="de-DE")
    p.sees("Wie es steht")
    p.close()


@journey
def a_stranger_with_an_old_cookie_joins_again():
    p = Phone(served, served.code)
    p.js("document.cookie")
    p.d.delete_all_cookies()
    p.open("/")
    p.sees("Type the four characters")
    p.close()


@journey
def narrow_and_at_200_percent():
    p = Phone(served, served.code, size=(320, 640))
    for page in PAGES:
        p.go(page)
        assert p.js("return document.documentElement.scrollWidth") <= 320, f"{page} is wider than 320 px"
    p.size(640, 800, 2)
    p.js("document.documentElement.style.fontSize = '200%'")
    for page in PAGES:
        p.go(page)
        assert p.js("return document.documentElement.scrollWidth") <= 640, f"{page} is too wide with letters twice as large"
    p.close()


@journey
def targets_are_large_enough():
    for page in PAGES:
        one.go(page)
        small = one.js("return [...document.querySelectorAll('main button, main select, main input:not([type=checkbox]):not([type=radio]):not([type=range]), main summary, nav a')].filter(e => e.checkVisibility() && e.getBoundingClientRect().height > 0 && (e.getBoundingClientRect().height < 47.5)).map(e => e.outerHTML.slice(0, 90))")
        assert not small, f"{page}: {small}"


@journey
def keyboard_reaches_a_count():
    one.go("row/C1/3")
    reached = one.js("const b = [...document.querySelectorAll('main button')].find(b => b.textContent.startsWith('All here')); b.focus(); return document.activeElement === b && getComputedStyle(b).outlineStyle")
    assert reached, "the button takes no focus"
    from selenium.webdriver.common.keys import Keys
    one.d.switch_to.active_element.send_keys(Keys.ENTER)
    one.wait(lambda: row("C1", 3).get("counted"), "the count by keyboard")


PAGES = ["", "boxes", "box/A1", "row/A1/2", "find", "part/D-935", "missing", "work", "step/S20", "plan", "release", "closing", "batteries", "crew", "me", "more", "recent", "waiting", "scale"]
only = sys.argv[2:]
for f in journeys:
    if only and f.__name__ not in only:
        continue
    begin = time.monotonic()
    try:
        f()
        check.that(True, f.__name__)
        print(f"{time.monotonic() - begin:6.1f} s  {f.__name__}", flush=True)
    except Exception as e:
        check.that(False, f"{f.__name__}: {type(e).__name__} {str(e)[:700]}")
for p in (laptop, one, two):
    check.that(not p.faults(), f"the browser complains: {p.faults()[:3]}")
    p.close()
served.stop()
check.end()
