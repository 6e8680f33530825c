/* commands_trade.c: the rows of the command table that are about what a fitter knows. */
#include "cli/commands.h"

const cli_command commands_trade[] = {
    {
        .name = "fastener",
        .arguments = "DESIGNATION",
        .most = -1,
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
                    {"runs-with", 0, "PART", "this nut or screw runs on: D-937, B1 3, C4"},
                    {"stops-with", 0, "PART", "this one does not"},
                    {"floor", 0, NULL, "found on the floor: where does it come from?"}},
    },
    {
        .name = "weigh",
        .arguments = "[KIT|FILE BAG]",
        .least = 0,
        .most = 2,
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
    {.name = NULL},
};
