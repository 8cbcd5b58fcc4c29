// What is said of a command line that is wrong, and which word is near.
#include "services/client/usage.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "services/client/parsing/nearest.h"

namespace rowproof::client {
namespace {

std::string LineFor(std::vector<const char*> words) {
  CLI::App app("rowproof");
  app.add_option("--server");
  app.add_flag("--json");
  auto* check = app.add_subcommand("check");
  check->add_option("--technique");
  check->add_option("--materials")->group("");
  app.add_subcommand("pattern")->add_subcommand("list");
  words.insert(words.begin(), "rowproof");
  return UsageLine(app, static_cast<int>(words.size()), words.data(), "FILE is required");
}

TEST(UsageLine, NamesTheCommandThatIsNear) {
  EXPECT_EQ(
      LineFor({"chek", "mat.png"}),
      "\"rowproof\" has no command \"chek\"; did you mean \"check\"? (see \"rowproof --help\")");
  EXPECT_EQ(LineFor({"--server", "chek", "check", "mat.png"}),
            "FILE is missing (see \"rowproof check --help\")");
  EXPECT_EQ(LineFor({"pattern", "lsit"}),
            "\"rowproof pattern\" has no command \"lsit\"; did you mean \"list\"? (see \"rowproof "
            "pattern --help\")");
  EXPECT_EQ(LineFor({"knit"}), "\"rowproof\" has no command \"knit\" (see \"rowproof --help\")");
  EXPECT_EQ(
      LineFor({"pattern"}),
      "\"rowproof pattern\" needs one of its commands: list (see \"rowproof pattern --help\")");
}

TEST(UsageLine, NamesTheOptionThatIsNearOfTheCommandOrTheProgram) {
  EXPECT_EQ(LineFor({"check", "--tecnique=spike"}),
            "\"rowproof check\" has no option \"--tecnique\"; did you mean \"--technique\"? (see "
            "\"rowproof check --help\")");
  EXPECT_EQ(LineFor({"check", "--jsn"}),
            "\"rowproof check\" has no option \"--jsn\"; did you mean \"--json\"? (see \"rowproof "
            "check --help\")");
}

TEST(Nearest, TakesOneSlipInThreeLettersAndNoMore) {
  const std::vector<std::string> words = {"check", "repair", "repeats", "rows"};
  EXPECT_EQ(NearestOf("chek", words), "check");
  EXPECT_EQ(NearestOf("hceck", words), "check");
  EXPECT_EQ(NearestOf("repiar", words), "repair");
  EXPECT_EQ(NearestOf("rep", words), "repair");
  EXPECT_EQ(NearestOf("knit", words), "");
  EXPECT_EQ(NearestOf("", words), "");
  EXPECT_EQ(NearestOf(std::string(100000, 'c'), words), "");
  EXPECT_EQ(AnyOf({"a"}), "a");
  EXPECT_EQ(AnyOf({"a", "b", "c"}), "a, b or c");
}

}  // namespace
}  // namespace rowproof::client
