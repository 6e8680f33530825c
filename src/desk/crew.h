/* crew.h: the crew, its dates and who comes, changed without files; part of desk.h, which includes it.
 *
 * Each change is a row of the workshop's tables as it is from now on, written in the journal, so that it can be undone
 * like a count; only names are not in the journal and are written anew instead. What follows is checked as the workshop's folder
 * is: a change that leaves sessions, attendance or crew wrong in themselves is refused (ERR_INPUT), whatever else does not
 * fit any more (a step that nobody may supervise) is told in `mind`.
 *
 * A build without a workshop gets one with its first person.
 */
#ifndef DESK_CREW_H
#define DESK_CREW_H

typedef enum { DESK_AS_IT_IS = -1, DESK_NO, DESK_YES } desk_answer;

/* What is to be changed of a person; NULL: as it is. Lists are numbers or names with commas between, "" none. */
typedef struct {
    const char *name; /* a nickname is enough */
    desk_answer adult, leader;
    const char *supervises; /* kinds of work */
    const char *skills;
} desk_person_change;

/* `number` gets the new person's. Two people of one name are refused. */
MUST_USE bool desk_add_person(struct desk *d, const desk_person_change *c, desk_who who, desk_reasons *mind,
                              text *number, err *e);

/* `person` is a name or number here and below. */
MUST_USE bool desk_change_person(struct desk *d, text person, const desk_person_change *c, desk_who who,
                                 desk_reasons *mind, err *e);

/* Nobody expects the person any more, and no attendance of theirs stands; what they did stays. */
MUST_USE bool desk_remove_person(struct desk *d, text person, desk_who who, desk_reasons *mind, err *e);

/* The workshop itself; -1 or NULL: as it is. beginners_percent: 150 is half as long again. `wanted`: a day, or "" none. */
typedef struct {
    const char *name;
    int64_t minimum_adults, beginners_percent;
    const char *wanted;
} desk_workshop_change;
MUST_USE bool desk_change_workshop(struct desk *d, const desk_workshop_change *c, desk_who who,
                                   desk_reasons *mind, err *e);

/* How many of a tool or workplace (by its number in the kit) the workshop has; each once. */
typedef struct {
    text number;
    int64_t quantity;
} desk_owned;
MUST_USE bool desk_own(struct desk *d, const desk_owned *list, uint32_t n, desk_who who, desk_reasons *mind,
                       err *e);

/* "Tuesdays 18:30 to 20:30, 5 September to 14 November, not 24 October" (docs/workshop-format.md). Opening and closing
 * minutes -1: as of the last session there is, else 10 each. `first` and `n` get the numbers of the new sessions. */
MUST_USE bool desk_add_sessions(struct desk *d, text rule, int64_t opening_min, int64_t closing_min,
                                desk_who who, desk_reasons *mind, int64_t *first, uint32_t *n, err *e);

/* Takes a session out of the dates; its attendance goes with it. */
MUST_USE bool desk_remove_session(struct desk *d, int64_t session, desk_who who, desk_reasons *mind, err *e);

/* Called off, or held after all. */
MUST_USE bool desk_cancel_session(struct desk *d, int64_t session, bool cancelled, desk_who who,
                                  desk_reasons *mind, err *e);

/* from and until in minutes after midnight, -1: the session's own. Only exceptions are kept: whoever comes to the whole
 * session has no row. */
MUST_USE bool desk_attend(struct desk *d, int64_t session, text person, bool comes, int from, int until,
                          desk_who who, desk_reasons *mind, err *e);

#endif
