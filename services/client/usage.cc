#include "services/client/usage.h"

#include <regex>
#include <vector>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/nearest.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

std::vector<std::string> CommandsOf(const CLI::App& app) {
  std::vector<std::string> names;
  for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    names.push_back(command->get_name());
  }
  return names;
}

const CLI::App* CommandNamed(const CLI::App& app, const std::string& name) {
  for (const auto* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    if (command->get_name() == name) return command;
  }
  return nullptr;
}

// An option of the command, or of those above it.
const CLI::Option* OptionNamed(const CLI::App* app, const std::string& name) {
  for (; app != nullptr; app = app->get_parent()) {
    if (const auto* option = app->get_option_no_throw(name); option != nullptr) return option;
  }
  return nullptr;
}

std::vector<std::string> OptionsOf(const CLI::App* app) {
  std::vector<std::string> names;
  for (; app != nullptr; app = app->get_parent()) {
    for (const auto* option : app->get_options()) {
      if (option->get_group().empty()) continue;
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
  }
  return names;
}

// The parser's own sentences, as we say them.
std::string Reworded(const std::string& said) {
  using Pair = std::pair<std::regex, const char*>;
  static const auto& sentences = *new std::vector<Pair>{
      {std::regex(R"(^(\S+) is required$)"), "$1 is missing"},
      {std::regex(R"(^Could not convert: (\S+) = (.*)$)"), "$1 must be a number (got \"$2\")"},
      {std::regex(R"(^The value (.*) is not an allowed value for (\S+)$)"),
       "$2 must be a number (got \"$1\")"},
      {std::regex(R"(^(\S+): \d+ required \S+ missing$)"), "$1 needs a value"},
      {std::regex(R"(^(\S+) requires (\S+)$)"), "$1 goes with $2, which is missing"},
      {std::regex(R"(^The following arguments? (?:was|were) not expected: (.*)$)"),
       "too much is given: $1"},
      {std::regex(R"(^\S*: (\S+ must be .*)$)"), "$1"},
  };
  for (const auto& [sentence, ours] : sentences) {
    if (std::regex_search(said, sentence)) return std::regex_replace(said, sentence, ours);
  }
  return said;
}

}  // namespace

std::string UsageLine(const CLI::App& app, int argc, const char* const* argv,
                      const std::string& said) {
  const CLI::App* at = &app;
  std::string path = "rowproof";
  const auto told = [&path](const std::string& what) {
    return fmt::format("{} (see \"{} --help\")", what, path);
  };
  for (int i = 1; i < argc; ++i) {
    const std::string word = text::OneLine(argv[i]);
    if (word == "--") break;
    if (word.size() > 1 && word.front() == '-') {
      const std::string name = word.substr(0, word.find('='));
      const CLI::Option* option = OptionNamed(at, name);
      if (option == nullptr) {
        return told(fmt::format("\"{}\" has no option \"{}\"{}", path, name,
                                DidYouMean(name, OptionsOf(at))));
      }
      if (option->get_items_expected_max() > 0 && name.size() == word.size()) ++i;
      continue;
    }
    const auto commands = CommandsOf(*at);
    if (commands.empty()) continue;
    const CLI::App* command = CommandNamed(*at, word);
    if (command == nullptr) {
      return told(
          fmt::format("\"{}\" has no command \"{}\"{}", path, word, DidYouMean(word, commands)));
    }
    at = command;
    path += " " + word;
  }
  const auto commands = CommandsOf(*at);
  if (at == &app) return told("no command is given");
  if (!commands.empty()) {
    return told(fmt::format("\"{}\" needs one of its commands: {}", path, AnyOf(commands)));
  }
  return told(Reworded(text::OneLine(said)));
}

}  // namespace rowproof::client
