/* trade.h: what an experienced fitter and a careful store keeper know, as pure functions over cited tables.
 *
 * The room as a library: this header, the static library of this room and that of src/base are all a program needs.
 * Nothing here reads a file, keeps a global that changes, or prints. Every function refuses input outside the range
 * it was checked for and says that range; `err` holds place, cause and remedy. Each topic has a header of its own.
 *
 * Sources are named beside each table and formula. "M" marks a value recalled from memory of the standard, without
 * the printed standard at hand; tests say which values were compared with a second, published place.
 *
 * None of these figures stands above the kit maker's manual and the rules of the place.
 */
#ifndef TRADE_TRADE_H
#define TRADE_TRADE_H

#include "trade/designation.h" /* reading and writing what a fastener is called */
#include "trade/dimensions.h"  /* sizes of heads, nuts, washers; threads */
#include "trade/look.h"        /* which two pieces a beginner mixes up, and how to tell them apart */
#include "trade/propose.h"     /* loose names of real lists, as proposals */

#include "trade/bag.h"        /* what explains a bag's wrong weight */
#include "trade/battery.h"    /* lead-acid batteries */
#include "trade/chance.h"     /* distributions and intervals */
#include "trade/identify.h"   /* which part is this piece, and what to look at next */
#include "trade/lifting.h"    /* what adults may lift */
#include "trade/mass.h"       /* what one piece weighs */
#include "trade/recount.h"    /* how many rows to count again */
#include "trade/tightening.h" /* how hard a screw may be tightened */
#include "trade/tools.h"      /* what turns a fastener */
#include "trade/weigh.h"      /* counting by weight */
#include "trade/wiring.h"     /* cables and fuses */

#endif
