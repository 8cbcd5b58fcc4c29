// The cells of an answered chart as pictures in signs. Pure.
#ifndef ROWPROOF_SERVICES_CLIENT_TABLES_CHART_CELLS_H_
#define ROWPROOF_SERVICES_CLIENT_TABLES_CHART_CELLS_H_

#include <string>

#include "rowproof/v1/chart.pb.h"
#include "rowproof/v1/repair.pb.h"

namespace rowproof::client {

// Row from 1 at the bottom, stitch from 1 at the right, both inside the chart.
bool CellOf(const v1::Chart& chart, int row, int stitch);

// A letter of a picture's colour, or . and x of a working chart.
char SignOf(const v1::Chart& chart, int row, int stitch);

// The repaired chart, or some rows and stitches around a cell if it is too large for a screen, with
// their numbers; edited cells are in brackets.
std::string PictureAround(const v1::RepairResult& repair, int row, int stitch);

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_TABLES_CHART_CELLS_H_
