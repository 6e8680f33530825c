/* print_labels.c: how the command line says what a label sheet looks like. */
#include "base/number.h"
#include "cli/print.h"

/* "63.5x33.9" in thousandths. `digits` after the point. */
static bool read_pair(const print_job *j, const char *option, int digits, int64_t *x, int64_t *y, err *e) {
    const char *value = cli_value(j->call, option);
    if (!value)
        return true;
    text rest = text_of(value), left = {0}, right;
    number_fault why;
    bool two = text_next_piece(&rest, 'x', &left) && rest.len;
    right = rest;
    if (two && number_decimal(left, digits, 0, 1000000, x, &why) &&
        number_decimal(right, digits, 0, 1000000, y, &why))
        return true;
    return err_input(e, arena_format(j->call->memory, "--%s", option).at,
                     digits ? "write it as 63.5x33.9, in millimetres" : "write it as 3x8: columns by rows",
                     "\"%s\" is not understood", value);
}

static bool read_form(const print_job *j, paper_label_form *f, err *e) {
    *f = paper_label_default(j->setup.size);
    int64_t columns = f->columns, rows = f->rows, first;
    int64_t width = (int64_t)(f->width_mm * 1000), height = (int64_t)(f->height_mm * 1000);
    int64_t left = (int64_t)(f->left_mm * 1000), top = (int64_t)(f->top_mm * 1000);
    int64_t gap_x = (int64_t)(f->gap_x_mm * 1000), gap_y = (int64_t)(f->gap_y_mm * 1000);
    if (!read_pair(j, "grid", 0, &columns, &rows, e) || !read_pair(j, "label", 3, &width, &height, e) ||
        !read_pair(j, "corner", 3, &left, &top, e) || !read_pair(j, "gap", 3, &gap_x, &gap_y, e) ||
        !build_option(j->call, "first", 1, 1000, 1, &first, e))
        return false;
    const char *address = cli_value(j->call, "address");
    *f = (paper_label_form){.columns = (int)columns,
                            .rows = (int)rows,
                            .width_mm = (double)width / 1000,
                            .height_mm = (double)height / 1000,
                            .left_mm = (double)left / 1000,
                            .top_mm = (double)top / 1000,
                            .gap_x_mm = (double)gap_x / 1000,
                            .gap_y_mm = (double)gap_y / 1000,
                            .first = (int)first,
                            .address = address ? text_of(address) : TEXT("")};
    return true;
}

static bool compose(print_job *j, paper_label_kind kind, err *e) {
    paper_label_form form;
    return read_form(j, &form, e) &&
           paper_labels(j->call->memory, &j->setup, j->kit, kind, &form, &j->pdf, &j->notes, e);
}

bool print_bag_labels(print_job *j, err *e) {
    return compose(j, PAPER_BAG_LABELS, e);
}

bool print_sorter_labels(print_job *j, err *e) {
    return compose(j, PAPER_SORTER_LABELS, e);
}
