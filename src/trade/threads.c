/* threads.c: diameters and pitches of ISO 261 / ISO 262 that kits contain, M1.6 to M24.
 *
 * Source: ISO 261 and ISO 262 as two open CAD tables and ISO 724 reprints give them; M3.5, M7, M18 and M22 are second
 * choice sizes. Fine pitches: the ones ISO 261 lists for the diameter. */
#include "trade/designation.h"

typedef struct {
    int32_t d, coarse, fine[3];
} thread_row;

static const thread_row threads[] = {
    {1600, 350, {200, 0, 0}},          {2000, 400, {250, 0, 0}},          {2500, 450, {350, 0, 0}},
    {3000, 500, {350, 0, 0}},          {3500, 600, {350, 0, 0}},          {4000, 700, {500, 0, 0}},
    {5000, 800, {500, 0, 0}},          {6000, 1000, {750, 0, 0}},         {7000, 1000, {750, 0, 0}},
    {8000, 1250, {1000, 750, 0}},      {10000, 1500, {1250, 1000, 750}},  {12000, 1750, {1500, 1250, 1000}},
    {14000, 2000, {1500, 1250, 1000}}, {16000, 2000, {1500, 1000, 0}},    {18000, 2500, {2000, 1500, 1000}},
    {20000, 2500, {2000, 1500, 1000}}, {22000, 2500, {2000, 1500, 1000}}, {24000, 3000, {2000, 1500, 1000}},
};

enum { N_THREADS = sizeof threads / sizeof *threads };

static const thread_row *find_row(int32_t thread_um) {
    for (size_t i = 0; i < N_THREADS; i++)
        if (threads[i].d == thread_um)
            return &threads[i];
    return NULL;
}

int32_t thread_coarse_pitch_um(int32_t thread_um) {
    const thread_row *row = find_row(thread_um);
    return row ? row->coarse : 0;
}

bool thread_pitch_known(int32_t thread_um, int32_t pitch_um) {
    const thread_row *row = find_row(thread_um);
    if (!row || pitch_um <= 0)
        return false;
    return pitch_um == row->coarse || pitch_um == row->fine[0] || pitch_um == row->fine[1] ||
           pitch_um == row->fine[2];
}

int32_t thread_size_at(size_t i) {
    return i < N_THREADS ? threads[i].d : 0;
}
