#include "tests/domain/reconcile/statistics/check_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <fstream>
#include <iomanip>
#include <sstream>

#include "tests/support/source_folder.h"

namespace rowproof::reconcile {
namespace {

std::string PathOf(const std::string& file) { return InSources("tests/data/" + file); }

}  // namespace

nlohmann::json LoadChecks(const std::string& name) {
  std::ifstream file(PathOf(name + ".json"));
  EXPECT_TRUE(file.good()) << name;
  return nlohmann::json::parse(file);
}

std::vector<std::vector<std::string>> LoadRows(const std::string& name) {
  std::ifstream file(PathOf(name + ".csv"));
  EXPECT_TRUE(file.good()) << name;
  std::vector<std::vector<std::string>> rows;
  std::string line;
  bool below_heading = false;
  while (std::getline(file, line)) {
    if (line.empty() || line[0] == '#') continue;
    if (!below_heading) {
      below_heading = true;
      continue;
    }
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    rows.push_back(cells);
  }
  EXPECT_FALSE(rows.empty()) << name;
  return rows;
}

double RightDigits(double value, const std::string& exact) {
  const long double truth = std::stold(exact);
  const long double error = std::abs((static_cast<long double>(value) - truth) / truth);
  if (error <= 1e-17L) return 17;
  return static_cast<double>(-std::log10(error));
}

double LastPlace(const std::string& printed) {
  const size_t exponent_at = printed.find_first_of("eE");
  const std::string digits = printed.substr(0, exponent_at);
  int exponent = exponent_at == std::string::npos ? 0 : std::stoi(printed.substr(exponent_at + 1));
  const size_t point = digits.find('.');
  if (point != std::string::npos) exponent -= static_cast<int>(digits.size() - point - 1);
  return std::pow(10.0, exponent);
}

std::vector<double> AskSciPy(const std::string& script) {
  const std::string command =
      "/usr/bin/python3 - <<'END_OF_SCRIPT'\n"
      "import numpy as np\n"
      "from scipy import integrate, stats\n" +
      script + "\nEND_OF_SCRIPT\n";
  std::FILE* pipe = popen(command.c_str(), "r");
  EXPECT_NE(pipe, nullptr);
  std::vector<double> numbers;
  if (pipe == nullptr) return numbers;
  char line[256];
  while (std::fgets(line, sizeof line, pipe) != nullptr) numbers.push_back(std::stod(line));
  EXPECT_EQ(pclose(pipe), 0) << "python3-scipy has to be installed";
  return numbers;
}

}  // namespace rowproof::reconcile
