/* attributes.h: what we tell the compiler about functions. */
#ifndef BASE_ATTRIBUTES_H
#define BASE_ATTRIBUTES_H

/* A result that must not be ignored: false means that `err` holds a reason somebody has to see. */
#define MUST_USE __attribute__((warn_unused_result))

/* The n-th argument is a printf format, checked against the arguments from m on. */
#define PRINTF_LIKE(n, m) __attribute__((format(printf, n, m)))

#endif
