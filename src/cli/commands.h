/* commands.h: the command table in its groups, and one function for each command; each stands in cmd_NAME.c. */
#ifndef CLI_COMMANDS_H
#define CLI_COMMANDS_H

#include "cli/cli.h"

/* Each ends with an entry without a name. */
extern const cli_command commands_kits[], commands_stock[], commands_build_file[], commands_crew[],
    commands_plan[], commands_build[], commands_paper[], commands_trade[], commands_benchmarks[],
    commands_about[];

int cmd_again(cli_call *call);
int cmd_arrive(cli_call *call);
int cmd_attendance(cli_call *call);
int cmd_back(cli_call *call);
int cmd_battery(cli_call *call);
int cmd_blocked(cli_call *call);
int cmd_calendar(cli_call *call);
int cmd_change_over(cli_call *call);
int cmd_chase(cli_call *call);
int cmd_check(cli_call *call);
int cmd_closing(cli_call *call);
int cmd_codes(cli_call *call);
int cmd_compartments(cli_call *call);
int cmd_copy(cli_call *call);
int cmd_count(cli_call *call);
int cmd_crew(cli_call *call);
int cmd_done(cli_call *call);
int cmd_draft(cli_call *call);
int cmd_draw(cli_call *call);
int cmd_enter(cli_call *call);
int cmd_export(cli_call *call);
int cmd_fastener(cli_call *call);
int cmd_forget(cli_call *call);
int cmd_help(cli_call *call);
int cmd_identify(cli_call *call);
int cmd_late(cli_call *call);
int cmd_leave(cli_call *call);
int cmd_left_overs(cli_call *call);
int cmd_lift(cli_call *call);
int cmd_loose(cli_call *call);
int cmd_missing(cli_call *call);
int cmd_move(cli_call *call);
int cmd_new(cli_call *call);
int cmd_photo(cli_call *call);
int cmd_page(cli_call *call);
int cmd_plan(cli_call *call);
int cmd_print(cli_call *call);
int cmd_promise(cli_call *call);
int cmd_reading(cli_call *call);
int cmd_receive(cli_call *call);
int cmd_recount(cli_call *call);
int cmd_release(cli_call *call);
int cmd_report(cli_call *call);
int cmd_serve(cli_call *call);
int cmd_sessions(cli_call *call);
int cmd_restore(cli_call *call);
int cmd_solve(cli_call *call);
int cmd_start(cli_call *call);
int cmd_steps(cli_call *call);
int cmd_stock(cli_call *call);
int cmd_take(cli_call *call);
int cmd_test(cli_call *call);
int cmd_tighten(cli_call *call);
int cmd_tools(cli_call *call);
int cmd_tools_here(cli_call *call);
int cmd_undo(cli_call *call);
int cmd_undo_step(cli_call *call);
int cmd_weigh(cli_call *call);
int cmd_whatif(cli_call *call);
int cmd_where(cli_call *call);
int cmd_why(cli_call *call);
int cmd_risk(cli_call *call);
int cmd_session(cli_call *call);
int cmd_wire(cli_call *call);
int cmd_workshop(cli_call *call);

#endif
