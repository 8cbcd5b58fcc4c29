// One measured figure, and how it is printed.
#ifndef ROWPROOF_TESTS_BENCH_FIGURE_H_
#define ROWPROOF_TESTS_BENCH_FIGURE_H_

#include <chrono>
#include <functional>
#include <string>
#include <vector>

namespace rowproof::bench {

struct Figure {
  std::string name;   // "submit-300x400"
  double value = 0;   // of the whole thing, in `unit`
  std::string unit;   // "us", "ms", "MB/s" or "1/s"
  double floor = 0;   // of the least that it cannot do without, in the same run and unit
  std::string bound;  // what is required of the ratio, for people; may be empty
  double Ratio() const { return value / floor; }
};

// Of at least one value.
double Median(std::vector<double> values);

// Microseconds that `work` takes once.
double Microseconds(const std::function<void()>& work);

struct Pair {
  double value_us = 0;
  double floor_us = 0;
};
// Medians of `runs` runs of each, in turn, after one of each that does not count.
Pair Interleaved(int runs, const std::function<void()>& work, const std::function<void()>& floor);

// A table, or one JSON object a line.
void PrintTable(const std::vector<Figure>& figures);
void PrintJson(const std::vector<Figure>& figures);

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_FIGURE_H_
