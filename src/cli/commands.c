/* commands.c: the one table of commands. A new command is a row here, a line in commands.h, and cmd_NAME.c. */
#include "cli/commands.h"

static const cli_command commands[] = {
    {
        .name = "check",
        .arguments = "KIT",
        .least = 1,
        .most = 1,
        .group = "Kits",
        .summary = "every fault of a kit folder, or its size when all is right",
        .details = "Reads the kit folder (docs/kit-format.md) and with --workshop also the\n"
                   "workshop's folder (docs/workshop-format.md). Each fault is told with file, row,\n"
                   "column, what is wrong and what would be right, all in one run. Exit code 0: no\n"
                   "fault, 2: faults.",
        .run = cmd_check,
        .options = {{"workshop", 'w', "FOLDER", "check the workshop that builds it, too"},
                    {"package", 0, NULL, "write datapackage.json anew from the tables first"}},
    },
    {
        .name = "draft",
        .arguments = "LIST",
        .least = 1,
        .most = 1,
        .group = "Kits",
        .summary = "a draft kit from somebody else's parts list",
        .details = "Reads a parts list (CSV with commas, semicolons or tabs; UTF-8, UTF-16 or\n"
                   "Windows-1252) and tells how it was read: which column is what, how sure that is\n"
                   "and why, and each row that is no part or was not understood. With -o the draft\n"
                   "kit is written: the parts, one box and bag, no steps. What was guessed wrong can\n"
                   "be named: --columns \"name=Part; quantity=C\" takes headings or a spreadsheet's\n"
                   "letters; there are name, quantity, unit, number, makers-number, specification,\n"
                   "note, box, bag and nothing (docs/draft.md). Exit code 1: some rows were not\n"
                   "understood.",
        .run = cmd_draft,
        .options = {{"output", 'o', "KIT", "folder to write, which must not be there yet"},
                    {"columns", 'c', "WHAT", "which columns are what"},
                    {"name", 0, "TEXT", "the kit's name; otherwise the list's file name"},
                    {"header-row", 0, "N", "row of the headings; 0: there are none"},
                    {"separator", 0, "WORD", "comma, semicolon or tab"},
                    {"encoding", 0, "WORD", "utf-8, utf-16le, utf-16be or windows-1252"},
                    {"decimal", 0, "WORD", "the decimal mark of the quantities: point or comma"},
                    {"open-packs", 0, NULL, "count the pieces of packs: 2 of 50 are 100"}},
    },
    {
        .name = "new",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Stock",
        .summary = "begin a build file for a kit and a crew",
        .details = "Checks the kit and the workshop as kitbench check does, copies their tables and\n"
                   "pictures into FILE and begins its journal. FILE then stands alone; call it\n"
                   "NAME.kitbench.\n"
                   "Without --workshop the stock can be checked, but nothing planned.",
        .run = cmd_new,
        .options = {{"kit", 'k', "FOLDER", "the kit (needed)"},
                    {"workshop", 'w', "FOLDER", "crew, sessions, tools and workplaces"}},
    },
    {
        .name = "receive",
        .arguments = "FILE BOX",
        .least = 2,
        .most = 2,
        .group = "Stock",
        .summary = "note a box at the door",
        .details = "BOX is its number as on the label. Noting it again replaces what was noted\n"
                   "before; both stay in the journal. A mass that is more than 3 % and 300 g from\n"
                   "the stated one is pointed out (common practice, no source).",
        .run = cmd_receive,
        .options = {{"mass", 'm', "G", "what it weighs, in grams"},
                    {"damaged", 'd', "TEXT", "damage seen from outside; goes to the carrier"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "count",
        .arguments = "FILE BAG ROW USABLE",
        .least = 3,
        .most = 5,
        .group = "Stock",
        .summary = "write down what was found for a row",
        .details = "In four forms:\n"
                   "  count FILE BAG ROW USABLE            a row of a bag's or box's check sheet\n"
                   "  count FILE NUMBER USABLE             a part number or maker's number that\n"
                   "                                       stands on one row only\n"
                   "  count FILE BAG extra WHAT QUANTITY   pieces that are on no row\n"
                   "  count FILE BAG all-here              every row of it not counted yet is right\n"
                   "USABLE does not include damaged pieces. Counting again is always right: the last\n"
                   "count stands and all are kept. An extra of 0 takes an earlier extra back.",
        .run = cmd_count,
        .options = {{"damaged", 'd', "N", "pieces found, but unfit"},
                    {"in-transit", 0, NULL, "the damage was done on the way: for the carrier"},
                    {"note", 'n', "TEXT", "what is wrong with them"},
                    {"photo", 0, "FILE", "PNG or JPEG; place and time are taken out of it"},
                    {"volts", 0, "LIST", "of batteries, in their order: \"12.81;12.79\""},
                    {"by", 'b', "NAME", "who counted"}},
    },
    {
        .name = "take",
        .arguments = "FILE [BOX]",
        .least = 1,
        .most = 2,
        .group = "Stock",
        .summary = "a pair takes a box or bag; without BOX who has which",
        .details = "Somebody else who has it is told (exit code 1); --anyway takes it over.",
        .run = cmd_take,
        .options = {{"by", 'b', "NAME,...", "who takes it"},
                    {"table", 't', "TEXT", "where it is taken to"},
                    {"anyway", 0, NULL, "also when somebody else has it"}},
    },
    {
        .name = "back",
        .arguments = "FILE BOX",
        .least = 2,
        .most = 2,
        .group = "Stock",
        .summary = "a box or bag is back where it came from",
        .details = "No closing count is written while one is not.",
        .run = cmd_back,
        .options = {{"by", 'b', "NAME", "who brought it"}},
    },
    {
        .name = "again",
        .arguments = "FILE [BAG ROW USABLE]",
        .least = 1,
        .most = 4,
        .group = "Stock",
        .summary = "a row counted again by somebody not shown the count",
        .details = "The count stands; nothing is said of whether the two agree. Without BAG they are\n"
                   "set side by side, for the leader. Exit code 1: some differ.",
        .run = cmd_again,
        .options = {{"damaged", 'd', "N", "pieces found, but unfit"},
                    {"by", 'b', "NAME", "who counted again"}},
    },
    {
        .name = "photo",
        .arguments = "FILE ENTRY -o OUT",
        .least = 2,
        .most = 2,
        .group = "Stock",
        .summary = "the photo that came with a count, as a file",
        .details = "ENTRY is the count's number in the journal, as count --json tells it.",
        .run = cmd_photo,
        .options = {{"output", 'o', "OUT", "where it is written"}},
    },
    {
        .name = "enter",
        .arguments = "FILE [ENTRY]",
        .least = 1,
        .most = 2,
        .group = "Stock",
        .summary = "quick entry of check sheets, many rows at once",
        .details = "Reads lines from standard input, or from the file ENTRY (docs/quick-entry.md):\n"
                   "  by Mika\n"
                   "  bag A1 all right\n"
                   "  bag B3 all right except row 7: 11, row 9: 4 and 1 damaged\n"
                   "  bag C2 missing\n"
                   "  bag C4 row 2: 6\n"
                   "  bag C4 extra 3 \"M5x16 pan head\"\n"
                   "All faults are told with their lines; nothing is saved unless all is right.",
        .run = cmd_enter,
        .options = {{"by", 'b', "NAME", "who counted, when no line says it"}},
    },
    {
        .name = "stock",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Stock",
        .summary = "where the stock check stands, box by box",
        .details = "For each box and bag (with what is nested in it): rows counted, rows that are\n"
                   "not as on the list, and its state.",
        .run = cmd_stock,
    },
    {
        .name = "missing",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Stock",
        .summary = "what is missing, and which steps that stops",
        .details = "Missing, too many, damaged and not on the list; look-alikes that were probably\n"
                   "swapped (count those rows again first); and the steps that cannot get all their\n"
                   "pieces. A step gets all or none, in build order; what is left is set against the\n"
                   "steps that are held up. Exit code 1 when anything is not as on the list, else 0.",
        .run = cmd_missing,
    },
    {
        .name = "report",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Stock",
        .summary = "the report to the maker and to the carrier",
        .details = "Prints the report. With -o it is written as report.txt, report.csv and\n"
                   "report.pdf into a folder. Damage in transit stands apart, for the carrier, with\n"
                   "the last day to claim it.",
        .run = cmd_report,
        .options = {{"output", 'o', "FOLDER", "write text, CSV and PDF into this folder"},
                    {"paper", 0, "SIZE", "a4 or letter, for the PDF"}},
    },
    {
        .name = "chase",
        .arguments = "FILE [PART N]",
        .least = 1,
        .most = 3,
        .group = "Stock",
        .summary = "where each missing part stands: asked, promised, came",
        .details = "With --sent the report went to the maker: all that lacks now is asked for. What\n"
                   "was asked is corrected only by an adult, with PART N and --reason. Stand-ins are\n"
                   "the maker's list; nothing releases one but people. Exit code 1: some lack.",
        .run = cmd_chase,
        .options = {{"sent", 0, "HOW", "the report was sent, and how"},
                    {"reason", 'r', "TEXT", "why what was asked is corrected"},
                    {"by", 'b', "NAME", "who sent or corrects it"}},
    },
    {
        .name = "promise",
        .arguments = "FILE PART QUANTITY DAY",
        .least = 4,
        .most = 4,
        .group = "Stock",
        .summary = "note what the maker will send, and when",
        .details = "PART is a part number or maker's number, DAY is written 2027-03-14. A promise\n"
                   "for the same part and day replaces the earlier one; 0 withdraws it.",
        .run = cmd_promise,
        .options = {{"instead", 0, NULL, "takes the place of all open promises of this part"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "arrive",
        .arguments = "FILE PART USABLE | FILE BAG",
        .least = 2,
        .most = 3,
        .group = "Stock",
        .summary = "note pieces that came later",
        .details = "They go to the rows that lack some, in the order of the packing list; the answer\n"
                   "says into which bag to put them. A later count of such a row counts them, too.\n"
                   "With a box or bag alone, all that its rows lack came in it.",
        .run = cmd_arrive,
        .options = {{"damaged", 'd', "N", "pieces that came, but unfit"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "undo",
        .arguments = "FILE [ENTRY]",
        .least = 1,
        .most = 2,
        .group = "Build file",
        .summary = "take back the last act, or one entry",
        .details = "Without ENTRY all that the last command which still stands wrote; given again\n"
                   "it goes back further. With ENTRY one entry of the journal; undoing an undo\n"
                   "makes the entry stand again. Nothing is removed: the undo is an entry, too.",
        .run = cmd_undo,
        .options = {{"by", 'b', "NAME", "who undid it"}, {"reason", 'r', "TEXT", "why; a sign-off needs it"}},
    },
    {
        .name = "codes",
        .arguments = "FILE [PERSON]",
        .least = 1,
        .most = 2,
        .group = "Build file",
        .summary = "codes that prove what an adult says",
        .details = "With PERSON, an adult of the crew, a code is set: it is asked for and never\n"
                   "stands on the command line. From then on a supervised start, a sign-off and its\n"
                   "correction ask for that person's code. Five wrong tries lock it until a leader\n"
                   "sets a new one. Once a leader has a code, changes need --by that leader. A code\n"
                   "keeps out somebody at a phone, not somebody who has the file.",
        .run = cmd_codes,
        .options = {{"by", 'b', "NAME", "the leader who changes it, or the person"},
                    {"remove", 0, NULL, "take the person's code away"},
                    {"clear", 0, NULL, "take all codes away; the journal tells it"},
                    {"reason", 'r', "TEXT", "why they are taken away (needed with --clear)"}},
    },
    {
        .name = "forget",
        .arguments = "FILE PERSON",
        .least = 2,
        .most = 2,
        .group = "Build file",
        .summary = "blank a person's name for good",
        .details = "The journal knows people by number; this blanks the name and rewrites the file\n"
                   "so that no byte of it is left there. What somebody typed as a note is not\n"
                   "searched.",
        .run = cmd_forget,
    },
    {
        .name = "copy",
        .arguments = "FILE OUT",
        .least = 2,
        .most = 2,
        .group = "Build file",
        .summary = "a consistent copy, also while the file is in use",
        .details = "OUT must not be there yet. The copy is checked before it gets its name.",
        .run = cmd_copy,
    },
    {
        .name = "export",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build file",
        .summary = "all of a build as JSON, for other programs and for long",
        .details = "Kit, workshop, people, journal and pictures, as docs/export.md describes them\n"
                   "and docs/export.schema.json checks them. Names of people are in it; codes and\n"
                   "devices are not. kitbench restore makes the same build of it.",
        .run = cmd_export,
        .options = {{"output", 'o', "JSON", "write it there instead of on the screen"}},
    },
    {
        .name = "page",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build file",
        .summary = "the state of a build as one web page, to send around",
        .details = "HTML without scripts, readable without any program of ours: where the build\n"
                   "stands, what is missing, the plan, each step, each box. No names are in it.",
        .run = cmd_page,
        .options = {{"output", 'o', "HTML", "write it there instead of on the screen"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "restore",
        .arguments = "FILE JSON",
        .least = 2,
        .most = 2,
        .group = "Build file",
        .summary = "make a build file from its export",
        .details = "FILE must not be there yet. Nothing of JSON is taken on trust: what does not fit\n"
                   "is refused with its table and row, and then there is no FILE. Codes must be set\n"
                   "again.",
        .run = cmd_restore,
    },
    {
        .name = "crew",
        .arguments = "FILE [add|change|remove NAME]",
        .least = 1,
        .most = 3,
        .group = "Crew",
        .summary = "who is in it; people added and changed without files",
        .details = "A nickname is enough. --supervises and --skills are numbers or names of the\n"
                   "kit's kinds of work and skills, with commas between. What was done stays under\n"
                   "the number of a person who is removed; kitbench forget blanks the name.",
        .run = cmd_crew,
        .options = {{"adult", 'a', "YES|NO", "of age"},
                    {"leader", 'l', "YES|NO", "leads the build"},
                    {"supervises", 0, "WORK,...", "what this adult may supervise"},
                    {"skills", 0, "SKILL,...", "already practised"},
                    {"name", 'n', "NAME", "of change: another nickname"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "workshop",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Crew",
        .summary = "the workshop: adults in the room, pace, wanted day",
        .details = "Shows them; with an option changes them.",
        .run = cmd_workshop,
        .options = {{"name", 'n', "TEXT", "of the workshop or club"},
                    {"minimum-adults", 0, "N", "in the room for any work"},
                    {"beginners-factor", 0, "N", "1.5: half as long again as the kit says"},
                    {"owns", 0, "NUMBER=N,...", "tools and workplaces that are there"},
                    {"wanted-day", 0, "DAY", "by when it must be ready; \"\": not said"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "sessions",
        .arguments = "FILE [add RULE | cancel|restore|remove N]",
        .least = 1,
        .most = 3,
        .group = "Crew",
        .summary = "the dates; added by a rule in plain words",
        .details = "RULE is like \"Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24\n"
                   "October\" or \"Saturday 12 September 10:00 to 16:00\". A day without a year is the\n"
                   "next one of that name.",
        .run = cmd_sessions,
        .options = {{"opening", 0, "MIN", "minutes at its start that are no work"},
                    {"closing", 0, "MIN", "minutes at its end that are no work"},
                    {"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "attendance",
        .arguments = "FILE [SESSION NAME WHEN]",
        .least = 1,
        .most = 4,
        .group = "Crew",
        .summary = "who comes to which session, and from when to when",
        .details = "WHEN is yes, no, 19:00-20:30, 19:00- or -20:00. Whoever is not named comes to\n"
                   "the whole session.",
        .run = cmd_attendance,
        .options = {{"by", 'b', "NAME", "who changed it"}},
    },
    {
        .name = "plan",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "who does what at which session, and when it is finished",
        .details = "From the kit's steps, the crew, the sessions and the stock: one step after\n"
                   "another and sub-assemblies in parallel side by side, the finish, what decides\n"
                   "it, steps that missing pieces stop, and for each session who does what\n"
                   "(docs/planning.md). Rows nobody counted yet are taken as packed; promised parts\n"
                   "arrive on their day. When the dated sessions do not suffice it goes on over\n"
                   "undated ones. Without --seconds the answer is the same on every machine. Ctrl-C\n"
                   "takes the best so far. Exit code 1: not all of it can be planned, or not in\n"
                   "time.",
        .run = cmd_plan,
        .options = {{"announce", 'a', NULL, "write down that the crew is told this plan"},
                    {"by", 'b', "NAME", "who announces it"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "draw",
        .arguments = "FILE CHART",
        .least = 2,
        .most = 2,
        .group = "Plan",
        .summary = "a chart of the plan as SVG",
        .details = "joining: the joining chart. Working time runs downwards, session by session; the\n"
                   "main machine is the trunk in the middle, sub-assemblies run beside it and turn\n"
                   "in at their joining step; a step is as wide as people work on it. It is laid\n"
                   "out for the width asked for: about 95 mm suit a phone.",
        .run = cmd_draw,
        .options = {{"output", 'o', "OUT.svg", "where it is written; else it is printed"},
                    {"width", 'w', "MM", "how wide, 55 to 2000 (180 unless said otherwise)"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "whatif",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "the plan with something changed, beside the plan of now",
        .details = "Nothing is written. Changes may be combined, each option once. Exit code 1: the\n"
                   "build then ends later, or fewer steps can go ahead.",
        .run = cmd_whatif,
        .options = {{"tonight-without", 0, "NAME", "somebody stays away from the next session"},
                    {"always", 0, "NAME", "somebody comes to all of every session"},
                    {"one-more-like", 0, "NAME", "one more person who may do the same"},
                    {"tool", 0, "NUMBER", "one more of a tool"},
                    {"workplace", 0, "NUMBER", "one more of a workplace"},
                    {"session-after", 0, "N", "one more session the day after session N"},
                    {"cancel", 0, "N", "no session N"},
                    {"part", 0, "NUMBER", "all pieces of a part are here at the start"},
                    {"gone", 0, "NAME", "somebody comes to no session any more"},
                    {"tool-less", 0, "NUMBER", "one fewer of a tool"},
                    {"workplace-less", 0, "NUMBER", "one fewer of a workplace"},
                    {"part-later", 0, "NUMBER:DAYS", "what is promised of a part comes later"},
                    {"crew", 0, NULL, "instead: crews of 1 to 12 with 1 to 4 adults"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "why",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "what holds the build up, and what would end it earlier",
        .details = "Plans again with one more person, tool, workplace or session, with somebody at\n"
                   "every session, with a missing part here at the start: each that could matter,\n"
                   "one at a time, ranked by the finish. When the wanted day is not met it looks\n"
                   "for the fewest of these that meet it. --seconds holds for each plan.",
        .run = cmd_why,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "late",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "which missing pieces to chase first, and what to order by when",
        .details = "Plans again with each lacking part coming later and later: the last day that\n"
                   "costs nothing, the cost of each week after it, and which steps wait meanwhile.\n"
                   "Then tools and consumables with the last day to order them, backward from the\n"
                   "plan. Exit code 1: pieces are lacking. --seconds holds for each plan.",
        .run = cmd_late,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for each plan"}},
    },
    {
        .name = "calendar",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "sessions and other dates for a calendar program",
        .details = "iCalendar (RFC 5545): sessions with their steps, promised arrivals, top-ups of\n"
                   "batteries, and what comes due after the release. A calendar program that reads\n"
                   "it again updates what it had: import it again whenever the plan has changed.\n"
                   "What is only promised or planned is marked as tentative. No names are in it.",
        .run = cmd_calendar,
        .options = {{"output", 'o', "FILE", "write it there instead of on the screen"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for a better plan"}},
    },
    {
        .name = "where",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "where we stand, what stops us, what to decide today",
        .details = "How far the check and the build are, the next session, steps that cannot go on\n"
                   "and why, and what somebody has to do or decide.",
        .run = cmd_where,
    },
    {
        .name = "steps",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "each step: running, ready, or what it waits for",
        .details = "In build order. A step is ready when it could be started now, given its people:\n"
                   "all it follows is done and its delay over, hold points signed, pieces, tools and\n"
                   "place free, and enough adults in the room.",
        .run = cmd_steps,
        .options = {{"open", 'o', NULL, "leave out what is done and tested"}},
    },
    {
        .name = "risk",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Plan",
        .summary = "how sure the day is, and where a reserve or a buffer helps",
        .details = "Carries the plan out 20,000 times: steps take their low, likely or high minutes,\n"
                   "people miss sessions, sessions are called off and promises come late as often\n"
                   "as the workshop's tables say. Tells the chance of each session being the last\n"
                   "and of meeting the wanted day, how often each step decides the finish, at\n"
                   "which sessions a supervisor in reserve is wanted, and where a buffer helps,\n"
                   "each with its sampling error. The same seed gives the same answer.",
        .run = cmd_risk,
        .options = {{"samples", 'n', "N", "carry it out so many times"},
                    {"seed", 0, "N", "other chances: a number from 1 on"},
                    {"threads", 0, "N", "use so many threads; otherwise all cores"},
                    {"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for the plan"}},
    },
    {
        .name = "session",
        .arguments = "FILE N",
        .least = 2,
        .most = 2,
        .group = "Plan",
        .summary = "the run sheet of one session: who, what, where, when",
        .details = "Plans the build and shows session N in full: each turn with its people, place,\n"
                   "tools and what to wear, when to change over and what to leave in which state,\n"
                   "then each person's evening. kitbench print FILE run-sheet draws it.",
        .run = cmd_session,
        .options = {{"from", 'f', "MOMENT", "plan from this day or moment on"},
                    {"seconds", 's', "S", "look at most so long for the plan"}},
    },
    {
        .name = "start",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .group = "Build",
        .summary = "begin a step, or go on with one that was left",
        .details = "Only when all it follows is done and its delay over, hold points are signed, its\n"
                   "pieces are there, nothing runs that may not be next to it, and its people are\n"
                   "free. Work that needs a supervisor is confirmed by one who may supervise it. Its\n"
                   "pieces are drawn into its tub. Exit code 1: not now; every reason is told.",
        .run = cmd_start,
        .options = {{"by", 'b', "NAME,...", "who works on it"},
                    {"confirm", 'c', "NAME", "the supervisor who says yes"}},
    },
    {
        .name = "change-over",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .group = "Build",
        .summary = "others go on with a running step",
        .details = "Who built a step, before or after a change-over, does not sign its tests.",
        .run = cmd_change_over,
        .options = {{"by", 'b', "NAME,...", "who goes on with it"}},
    },
    {
        .name = "leave",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .group = "Build",
        .summary = "leave a running step unfinished at a session's end",
        .details = "Its pieces stay in its tub. kitbench start goes on with it.",
        .run = cmd_leave,
        .options = {{"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "blocked",
        .arguments = "FILE STEP REASON",
        .least = 3,
        .most = 3,
        .group = "Build",
        .summary = "a step cannot go on, and why",
        .details = "kitbench start goes on with it once it can.",
        .run = cmd_blocked,
        .options = {{"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "done",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .group = "Build",
        .summary = "a step is done",
        .details = "What lies in its tub is fitted, but for what --left says: that goes back to its\n"
                   "compartment. Look into the tub: it must be empty now.",
        .run = cmd_done,
        .options = {{"minutes", 'm', "N", "minutes of work; otherwise as the clock says"},
                    {"left", 'l', "PART=N,...", "what was left in the tub"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {
        .name = "test",
        .arguments = "FILE STEP NUMBER VALUE",
        .least = 4,
        .most = 4,
        .group = "Build",
        .summary = "a measured value of a step's test, and who signs it",
        .details = "NUMBER is the test's on the job card: 1, 2, ...; VALUE a number in its unit, or\n"
                   "yes or no. Whoever built or measured does not sign. A value out of the limits is\n"
                   "written as failed and blocks what follows (exit code 1). A signed value is\n"
                   "replaced only by an adult, with --reason.",
        .run = cmd_test,
        .options = {{"by", 'b', "NAME", "who measured"},
                    {"signed-by", 's', "NAME", "who looked at it and signs"},
                    {"reason", 'r', "TEXT", "why a signed value is replaced"}},
    },
    {
        .name = "compartments",
        .arguments = "FILE [PART LABEL]",
        .least = 1,
        .most = 3,
        .group = "Build",
        .summary = "in which compartment each part lies",
        .details = "LABEL is what stands on it, such as \"tray 2, B4\"; \"\" for none.",
        .run = cmd_compartments,
        .options = {{"by", 'b', "NAME", "who labelled it"}},
    },
    {
        .name = "tools-here",
        .arguments = "FILE [TOOL N]...",
        .least = 1,
        .most = -1,
        .group = "Build",
        .summary = "which tools are back, counted one by one",
        .details = "--all: all of them are here, but for those that are named with their number.\n"
                   "Exit code 1: some are missing, or not counted since the last work.",
        .run = cmd_tools_here,
        .options = {{"all", 'a', NULL, "every tool is here in its number"},
                    {"by", 'b', "NAME", "who counted"}},
    },
    {
        .name = "loose",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "what was left loose on purpose, and what closes it",
        .details = "Of steps that were begun; a line goes away when its closing step is done.",
        .run = cmd_loose,
    },
    {
        .name = "move",
        .arguments = "FILE PART N FROM TO",
        .least = 5,
        .most = 5,
        .group = "Build",
        .summary = "pieces go from one place to another",
        .details = "FROM and TO are row (box or bag), compartment, tub, fitted, lost or scrapped. A\n"
                   "tub and what is fitted need --step. kitbench start and done move a step's own\n"
                   "pieces.",
        .run = cmd_move,
        .options = {{"step", 's', "STEP", "whose tub, or what it fitted"},
                    {"bag", 0, "BAG", "which bag or box of the packing list"},
                    {"by", 'b', "NAME", "who moved them"}},
    },
    {
        .name = "undo-step",
        .arguments = "FILE STEP",
        .least = 2,
        .most = 2,
        .group = "Build",
        .summary = "what undoing a step costs; with --yes take it apart",
        .details = "What hides it must come off first, and what hides that. Tells which tests become\n"
                   "void, which single-use pieces must be drawn again and whether they are there,\n"
                   "and the minutes. --yes needs an adult (--by) and a --reason.",
        .run = cmd_undo_step,
        .options = {{"yes", 'y', NULL, "do it"},
                    {"reason", 'r', "TEXT", "why"},
                    {"by", 'b', "NAME", "the adult who does it"}},
    },
    {
        .name = "closing",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "what to recount tonight; --complete: all is here",
        .details = "Names the few compartments and tools whose recount likeliest reveals a mistake\n"
                   "made today, chosen for five minutes. With --complete or --missing it is written\n"
                   "that the count was done.",
        .run = cmd_closing,
        .options = {{"since", 0, "MOMENT", "handled since then; otherwise since midnight"},
                    {"complete", 'c', NULL, "it was done, and everything is here"},
                    {"missing", 'm', "WHAT", "it was done, and this did not come back"},
                    {"by", 'b', "NAME", "who counted"}},
    },
    {
        .name = "left-overs",
        .arguments = "FILE [PART N]...",
        .least = 1,
        .most = -1,
        .group = "Build",
        .summary = "what pieces left at the end tell",
        .details = "Without PART what should be left by the record, with the spares and where it\n"
                   "lies. With counts: too many may be missing in a step, or a look-alike sits in\n"
                   "their place. Exit code 1: they differ.",
        .run = cmd_left_overs,
    },
    {
        .name = "reading",
        .arguments = "FILE [PART PIECE VOLTS]",
        .least = 1,
        .most = 4,
        .group = "Build",
        .summary = "a battery measured; without it all, and the next top-ups",
        .details = "Voltage says something only after 12 h of rest or more, each battery alone. The\n"
                   "label's days between top-ups come first; a low reading asks for one at once.",
        .run = cmd_reading,
        .options = {{"rested", 'r', "HOURS", "without load or charge"},
                    {"charged", 'c', NULL, "it was charged to full just now"},
                    {"bag", 0, "BAG", "bag or box, when the part lies in several"},
                    {"by", 'b', "NAME", "who measured"}},
    },
    {
        .name = "release",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "is the list complete? Each reason why not",
        .details = "Steps, hold points and other tests, what was left loose, pieces in tubs or lost,\n"
                   "and the closing count after the last work. It says \"list complete\" and nothing\n"
                   "more: whether the machine may be used is for people. Exit code 1: not complete.",
        .run = cmd_release,
    },
    {
        .name = "serve",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "Build",
        .summary = "the pages for phones and the laptop, until Ctrl-C",
        .details = "Shows the leader's address, and with --lan that of the phones with the code to\n"
                   "join, as text and as QR. Commands beside it may go on: the pages see within a\n"
                   "second what they write. With --wifi it asks for the password of the Wi-Fi and\n"
                   "shows a QR by which phones join it. Plain HTTP unless --tls is given: whoever\n"
                   "shares the Wi-Fi can listen.",
        .run = cmd_serve,
        .options = {{"port", 'p', "N", "where it listens; usually 8460, 0: any free one"},
                    {"lan", 0, NULL, "let other machines in; otherwise only this one"},
                    {"name", 0, "HOST", "the name by which phones reach this laptop"},
                    {"wifi", 0, "NAME", "show a QR to join the Wi-Fi of that name"},
                    {"tls", 0, "CERT,KEY", "use HTTPS with these two files"}},
    },
    {
        .name = "print",
        .arguments = "FILE|KIT WHAT -o OUT.pdf",
        .least = 2,
        .most = 2,
        .group = "Paper",
        .summary = "sheets to write on and to hang up, as a PDF",
        .details = "WHAT is one of\n"
                   "  check-sheets  the rows of each box to tick; --box, --copies\n"
                   "  report        what is missing or damaged, for the maker and the carrier\n"
                   "  job-cards     a card for each step; --step or --session\n"
                   "  run-sheet     who does what in one session; --session\n"
                   "  bag-labels    labels for boxes and bags: number, QR code, four characters\n"
                   "  sorter-labels the same for the sorter, with true-scale pictures\n"
                   "  gauge-sheets  every fastener in true scale, to lay pieces on\n"
                   "  tools, closing-sheet    tools to have; out and back in the evening\n"
                   "  hazards, emergency-card for your own risk assessment; beside the telephone\n"
                   "  unit-tags, release-list on half-built units; before the machine is used\n"
                   "  battery-card            care and readings\n"
                   "  packing-lists           for the maker: with the mass of each bag and box\n"
                   "  test-page     does the printer keep true scale?\n"
                   "  all           a PDF for each of them, into the folder that -o names\n"
                   "All but the report and the run sheet need no more than a kit folder. Measure the\n"
                   "ruler on a true-scale sheet: if its 100 mm are not 100 mm, print again with\n"
                   "--ruler. Label sheets of any grid: --grid 3x8 --label 63.5x33.9 --corner 7.25x13\n"
                   "--gap 2.5x0, in millimetres. The same input gives the same bytes.",
        .run = cmd_print,
        .options = {{"output", 'o', "OUT.pdf", "where the PDF is written"},
                    {"paper", 0, "SIZE", "a4 (unless said otherwise) or letter"},
                    {"box", 0, "BOX,...", "only these boxes"},
                    {"copies", 0, "N", "of each box's sheets, for several pairs"},
                    {"step", 0, "STEP,...", "only these steps"},
                    {"session", 0, "N", "of this session; a run sheet: the next one"},
                    {"ruler", 0, "MM", "what the printed 100 mm measured, to correct it"},
                    {"grid", 0, "CxR", "labels: columns by rows on a sheet"},
                    {"label", 0, "WxH", "width and height of one, mm"},
                    {"corner", 0, "XxY", "where the first begins, mm from the paper's corner"},
                    {"gap", 0, "XxY", "between labels, mm"},
                    {"first", 0, "N", "place of the first on a sheet that was begun"},
                    {"address", 0, "URL", "of the pages: QR codes then lead there"}},
    },
    {
        .name = "fastener",
        .arguments = "DESIGNATION",
        .most = -1,
        .group = "Trade",
        .summary = "what a fastener's name means, its sizes, tool and mass",
        .details = "DESIGNATION as the standards write it (ISO 4762 M8x25-8.8, DIN 985 M8, ISO\n"
                   "7089-8) or loosely (M5x16mm-socket-head); what was assumed is told. A thread\n"
                   "alone (M8, M8x1): its holes, drill and tools.",
        .run = cmd_fastener,
        .options = {{"against", 'a', "OTHER", "would a beginner mix it up with this one?"},
                    {"list", 'l', NULL, "the standards and marks that are known"}},
    },
    {
        .name = "tools",
        .arguments = "KIT|FILE",
        .least = 1,
        .most = 1,
        .group = "Trade",
        .summary = "the tools a kit's steps need, against those that are there",
        .details = "From the fasteners of each step (which spanner, key or driver of which size) and\n"
                   "the tools its table names: how many at once, how many the kit's table advises,\n"
                   "and how many the workshop has (a build file knows its workshop). Exit code 1:\n"
                   "some are missing or too few.",
        .run = cmd_tools,
        .options = {{"workshop", 'w', "FOLDER", "the workshop, beside a kit's folder"},
                    {"groups", 'g', "N", "how many groups work at once (1)"}},
    },
    {
        .name = "identify",
        .arguments = "KIT|FILE [WORDS]...",
        .least = 1,
        .most = -1,
        .group = "Trade",
        .summary = "which part of the kit is this piece?",
        .details = "WORDS find parts: a piece of a number or maker's number, words of a name (M8\n"
                   "nut), slips of the pen included. What is seen or measured ranks the fasteners,\n"
                   "and the next look that tells most is named. --floor (with a build file): a piece\n"
                   "lies on the floor; which steps used it? Words: --kind screw, set screw, rod,\n"
                   "nut, washer, pin, ring, insert; --head hexagon, hexagon flange, cap, low cap,\n"
                   "button, countersunk, raised countersunk, pan, cheese, carriage, eye; --drive\n"
                   "none, hexagon, hex socket, six lobes, cross, slot, square, hand; --finish\n"
                   "bright, black, zinc, hot-dip zinc, nickel. Exit code 1: nothing fits.",
        .run = cmd_identify,
        .options = {{"kind", 'k', "WORD", "what kind of piece"},
                    {"head", 0, "WORD", "its head"},
                    {"drive", 0, "WORD", "what turns it"},
                    {"finish", 0, "WORD", "what it looks like"},
                    {"thread", 0, "MM", "outside diameter; hole of a nut or washer; or M8"},
                    {"length", 0, "MM", "under the head; a countersunk screw over all"},
                    {"width", 0, "MM", "across flats, or diameter of head or washer"},
                    {"pitch", 0, "MM", "of the thread"},
                    {"mark", 0, "MARK", "on the head: 8.8, A2-70"},
                    {"with", 'w', "GAUGE", "ruler (unless said otherwise) or caliper"},
                    {"runs-with", 0, "PART", "this nut or screw (number, or \"B1 3\") runs on it"},
                    {"stops-with", 0, "PART", "this one does not"},
                    {"floor", 0, NULL, "found on the floor: where does it come from?"}},
    },
    {
        .name = "weigh",
        .arguments = "[KIT|FILE BAG]",
        .least = 0,
        .most = 2,
        .group = "Trade",
        .summary = "count by weight; what explains a bag's wrong weight",
        .details = "Without a kit: pieces from --gross, --tare and a reference sample, with the\n"
                   "chance that the number is right. With KIT and BAG: which missing or extra\n"
                   "pieces would explain the weight. Masses in grams. Exit code 1: not sure, or not\n"
                   "as listed.",
        .run = cmd_weigh,
        .options = {{"gross", 'g', "G", "full bag"},
                    {"tare", 't', "G", "empty bag (0)"},
                    {"reference", 'n', "N", "pieces in the reference sample"},
                    {"reference-mass", 'r', "G", "what they weigh"},
                    {"step", 0, "G", "smallest step of the scale (0.1)"},
                    {"scatter", 0, "SHARE", "of one piece's mass (0.01)"},
                    {"sure", 0, "PERCENT", "how sure a number must be (95)"},
                    {"changes", 0, "N", "most wrong pieces that are tried, 1 to 4 (2)"}},
    },
    {
        .name = "recount",
        .arguments = "[KIT|FILE]",
        .least = 0,
        .most = 1,
        .group = "Trade",
        .summary = "how many rows to count again, and which first",
        .details = "How many rows, drawn at random and counted again blind, until it is sure enough\n"
                   "that fewer than N wrong ones are left. With a kit or a build file: which rows to\n"
                   "look at first, by how likely they are wrong and what that would stop; in a build\n"
                   "the rows that were counted. Exit code 1: some are to be counted.",
        .run = cmd_recount,
        .options = {{"rows", 'n', "N", "rows of the list, when no kit is given"},
                    {"recounted", 'r', "N", "counted again so far (0)"},
                    {"wrong", 'w', "N", "wrong among them, now put right (0)"},
                    {"fewer-than", 'f', "N", "wrong rows that may be left, less one (5)"},
                    {"sure", 0, "PERCENT", "95 unless said otherwise"},
                    {"show", 0, "N", "rows to name (12)"},
                    {"first", 0, "N", "errors the first pair found; with --second and --both"},
                    {"second", 0, "N", "errors the second pair found in the same rows"},
                    {"both", 0, "N", "errors both found: estimates those that both missed"}},
    },
    {
        .name = "tighten",
        .arguments = "DESIGNATION",
        .least = 1,
        .most = -1,
        .group = "Trade",
        .summary = "how hard, when the kit's maker does not say",
        .details = "One figure, for the lowest friction of the condition, with the spread of clamp\n"
                   "force. Refuses what must not be computed: battery terminals, plastics, light-\n"
                   "alloy threads, inserts, castle nuts, cable clamps, bearing preload.",
        .run = cmd_tighten,
        .options = {{"kit", 'k', "KIT|FILE", "ask this kit's maker first; a part number will do"},
                    {"condition", 'c', "WORD", "dry (unless said otherwise), oiled or locked"},
                    {"nut", 'n', "NUT", "the nut on it"},
                    {"joint", 'j', "WORD", "steel (unless said otherwise), or what it holds"},
                    {"tool-length", 't', "MM", "of the tool in hand"}},
    },
    {
        .name = "wire",
        .arguments = "",
        .group = "Trade",
        .summary = "cable and fuse for a load on 12 or 24 V",
        .details = "The smallest cable that keeps the drop and carries the fuse, the fuse at the\n"
                   "battery, what a short circuit draws, and the order of connecting. With --area:\n"
                   "whether this cable is enough (exit code 1: not).",
        .run = cmd_wire,
        .options = {{"load", 'a', "A", "steady current (needed)"},
                    {"length", 'l', "M", "one way (needed)"},
                    {"volts", 'v', "V", "12 (unless said otherwise) or 24"},
                    {"area", 0, "MM2", "of a cable that is there: will it do?"},
                    {"drop", 'd', "PERCENT", "most that may be lost (3)"},
                    {"temperature", 't', "C", "around the cable (20)"}},
    },
    {
        .name = "battery",
        .arguments = "run|rest|store|charger|test|mass [KIT|FILE]",
        .least = 1,
        .most = 2,
        .group = "Trade",
        .summary = "lead-acid: run time, rest, storing, charger, test, mass",
        .details = "run      how long a load runs (--load, --use, --temperature)\n"
                   "rest     state of charge of one battery by rested voltage (--voltage, --rested)\n"
                   "store    dates to top it up in storage (--from, --to, --charge, --temperatures)\n"
                   "charger  does it suit, and how long (--amperes, --charge-volts, --float-volts)\n"
                   "test     capacity test (--reached, --promised, --temperature)\n"
                   "mass     what one weighs\n"
                   "The battery is the kit's when a kit is named, with its label's limits; --sort,\n"
                   "--volts, --ah, --series and --parallel say it, or say it otherwise.",
        .run = cmd_battery,
        .options = {{"part", 0, "PART", "of a kit with several batteries: which one"},
                    {"sort", 0, "WORD", "agm (unless said otherwise) or gel"},
                    {"volts", 0, "V", "of one battery, 6 or 12 (12)"},
                    {"ah", 0, "AH", "of one battery at the 20 h rate (36)"},
                    {"series", 0, "N", "batteries in a string (1)"},
                    {"parallel", 0, "N", "strings (1)"},
                    {"load", 0, "LOAD", "5 for 5 A, or parts A x min: 10x5; 2x20"},
                    {"use", 0, "PERCENT", "of the capacity that may be used (50)"},
                    {"temperature", 0, "C", "20 unless said otherwise"},
                    {"temperatures", 0, "C;C;...", "of storage: twelve monthly means, January first"},
                    {"voltage", 0, "V", "measured at rest"},
                    {"rested", 0, "H", "hours without load and charge"},
                    {"charge", 0, "PERCENT", "state of charge to begin with"},
                    {"from", 0, "DATE", "storage begins (today)"},
                    {"to", 0, "DATE", "storage ends"},
                    {"label-days", 0, "N", "days between top-ups that the label asks for"},
                    {"amperes", 0, "A", "of the charger"},
                    {"charge-volts", 0, "V", "at which it charges the whole set"},
                    {"float-volts", 0, "V", "at which it holds the whole set"},
                    {"reached", 0, "MIN", "minutes reached in the test"},
                    {"promised", 0, "MIN", "minutes promised at that current"}},
    },
    {
        .name = "lift",
        .arguments = "[KIT|FILE]",
        .least = 0,
        .most = 1,
        .group = "Trade",
        .summary = "how many adults for a mass; boxes and units of a kit",
        .details = "For healthy adults; no figure is given for minors. With --reach the revised\n"
                   "NIOSH equation, otherwise guideline masses by height. With KIT: its boxes as\n"
                   "shipped and its sub-assemblies when complete; --unit: one of them as it grows,\n"
                   "and who turns, carries and fits it. Exit code 1: too heavy.",
        .run = cmd_lift,
        .options = {{"mass", 'm', "KG", "the load"},
                    {"unit", 'u', "UNIT", "of the kit: its mass as it grows, step by step"},
                    {"who", 0, "WORD", "adult (unless said otherwise), man, woman"},
                    {"height", 0, "WORD", "shoulder, elbow, knuckle (the usual), knee, floor"},
                    {"arms-out", 0, NULL, "not close to the body"},
                    {"reach", 0, "CM", "ankles to hands, for the equation"},
                    {"hands", 0, "CM", "height of the hands (75)"},
                    {"travel", 0, "CM", "up or down (25)"},
                    {"twist", 0, "DEGREES", "of the body (0)"},
                    {"per-minute", 0, "N", "lifts (0.2)"},
                    {"hours", 0, "H", "of such work (1)"},
                    {"grip", 0, "WORD", "good, fair (unless said otherwise) or poor"}},
    },
    {
        .name = "solve",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
        .group = "For benchmarks",
        .summary = "schedule the problem in a file (for benchmarks)",
        .details = "Reads a scheduling problem, in the open PSPLIB text format (single mode) or in\n"
                   "the JSON form of docs/models.md, and prints one JSON object: status, makespan,\n"
                   "lower_bound, proven, seconds, schedules, conflicts, starts. Ctrl-C gives the\n"
                   "best so far. Exit code 1: no schedule.",
        .run = cmd_solve,
        .options = {{.name = "seconds", .value = "S", .help = "stop after S seconds"},
                    {.name = "processor-seconds",
                     .value = "S",
                     .help = "stop after S seconds of processor time of each thread"},
                    {.name = "threads", .value = "N", .help = "use N threads (1)"},
                    {.name = "seed", .value = "K", .help = "seed of all that is random (1)"},
                    {.name = "schedules", .value = "M", .help = "only generate M schedules, prove nothing"}},
    },
    {
        .name = "help",
        .arguments = "[COMMAND]",
        .most = 1,
        .group = "About",
        .summary = "the list of commands, or one command's help",
        .details = "Without an argument the list of all commands, with one what that command takes.",
        .run = cmd_help,
        .options = {{"manual", 0, NULL, "the whole as a man page, in the macros of groff"},
                    {"completion", 0, NULL, "a script by which bash completes our commands"}},
    },
};

const cli_command *cli_commands(size_t *n) {
    *n = sizeof commands / sizeof commands[0];
    return commands;
}
