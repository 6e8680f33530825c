/* manual.h: the man page and the shell's completion, written from the command table. */
#ifndef CLI_MANUAL_H
#define CLI_MANUAL_H

#include "base/buf.h"

/* The page for section 1 in the man(7) macros of groff. The same bytes for the same table: no date in it. */
void manual_page(buf *out);

/* A script for bash-completion: commands, each command's options, and file names for everything else. */
void manual_completion(buf *out);

#endif
