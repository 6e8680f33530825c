/* commands_paper.c: the rows of the command table that are about sheets. */
#include "cli/commands.h"

const cli_command commands_paper[] = {
    {
        .name = "print",
        .arguments = "FILE|KIT WHAT -o OUT.pdf",
        .least = 2,
        .most = 2,
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
    {.name = NULL},
};
