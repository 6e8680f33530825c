/* fastener_thread.h: what `kitbench fastener M8` tells: a thread alone, with its holes and tools. */
#ifndef CLI_FASTENER_THREAD_H
#define CLI_FASTENER_THREAD_H

#include "cli/trade_call.h"

/* "M8", "M8x1": a thread of ISO 261 and nothing else; the pitch is filled in. */
bool fastener_thread_read(text t, designation *out);

int fastener_thread_tell(const cli_call *call, const designation *thread);

#endif
