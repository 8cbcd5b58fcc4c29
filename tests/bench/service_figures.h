// Figures of the whole service: client, gRPC over loopback, rowproofd, PostgreSQL.
#ifndef ROWPROOF_TESTS_BENCH_SERVICE_FIGURES_H_
#define ROWPROOF_TESTS_BENCH_SERVICE_FIGURES_H_

#include <string>
#include <vector>

#include "tests/bench/figure.h"
#include "tests/bench/live_server.h"

namespace rowproof::bench {

// CreateVersion of a workable chart of 300 stitches and 400 rows, sent as bits. Floor: a health
// call, and the same bytes inserted and committed over libpq. The database must be prepared
// (bare_insert.h). Throws std::runtime_error where it cannot be measured.
Figure MeasureSubmit(const LiveServer& server);

// Reports accepted a second from 16 clients that have a call each, and from 16 clients on one call.
// Floor: the same clients on a bare insert-and-commit service. `self`: this program, which serves
// it. Throws where any answer is not OK.
std::vector<Figure> MeasureReports(const LiveServer& server, const std::string& self);

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_SERVICE_FIGURES_H_
