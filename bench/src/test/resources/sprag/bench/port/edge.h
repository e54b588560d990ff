#ifndef EDGE_H
#define EDGE_H

#include <stdbool.h>
#include <stdint.h>

/* A comparison of the supervisor: its number, the first and second letter of what it asks, and what it compares. */
bool edge_met(int32_t site, char than, bool orEqual, double a, double b);

#endif
