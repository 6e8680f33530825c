/* commands_stock.c: the rows of the command table that are about boxes at the door, counting, chasing. */
#include "cli/commands.h"

const cli_command commands_stock[] = {
    {
        .name = "new",
        .arguments = "FILE",
        .least = 1,
        .most = 1,
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
        .summary = "note pieces that came later",
        .details = "They go to the rows that lack some, in the order of the packing list; the answer\n"
                   "says into which bag to put them. A later count of such a row counts them, too.\n"
                   "With a box or bag alone, all that its rows lack came in it.",
        .run = cmd_arrive,
        .options = {{"damaged", 'd', "N", "pieces that came, but unfit"},
                    {"by", 'b', "NAME", "who noted it"}},
    },
    {.name = NULL},
};
