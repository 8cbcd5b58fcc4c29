#include "tests/domain/rows/golden_cases.h"

#include <cstdlib>
#include <fstream>
#include <iterator>

#include "fmt/format.h"
#include "gtest/gtest.h"
#include "tests/support/source_folder.h"

namespace rowproof::rows {
namespace {

const std::string kParting = "--\n";
const std::string kEnd = "==\n";

// The parts of a case, and what is kept of its outcome behind them.
GoldenParts Split(const std::string& text) {
  GoldenParts parts;
  size_t at = 0;
  for (size_t end; (end = text.find(kParting, at)) != std::string::npos;
       at = end + kParting.size()) {
    parts.push_back(text.substr(at, end - at));
  }
  parts.push_back(text.substr(at));
  return parts;
}

}  // namespace

void ExpectGolden(const std::string& name, size_t parts, int fewest,
                  const std::function<std::string(const GoldenParts&)>& report) {
  const std::string path = InSources("tests/golden/" + name);
  std::ifstream in(path);
  const std::string kept{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  std::string now;
  int cases = 0;
  for (size_t at = 0; at < kept.size(); ++cases) {
    const size_t end = kept.find(kEnd, at);
    ASSERT_NE(end, std::string::npos) << "case " << cases + 1;
    GoldenParts in_and_out = Split(kept.substr(at, end - at));
    ASSERT_EQ(in_and_out.size(), parts + 1) << "case " << cases + 1;
    in_and_out.pop_back();
    for (const std::string& part : in_and_out) now += part + kParting;
    now += report(in_and_out) + kEnd;
    at = end + kEnd.size();
  }
  EXPECT_GE(cases, fewest);
  if (std::getenv("ROWPROOF_REWRITE_GOLDEN") != nullptr) {
    std::ofstream(path) << now;
    return;
  }
  EXPECT_EQ(now, kept);
}

}  // namespace rowproof::rows
