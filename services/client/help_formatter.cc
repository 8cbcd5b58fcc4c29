#include "services/client/help_formatter.h"

#include <map>
#include <set>
#include <vector>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/client/parsing/chart_options.h"
#include "services/client/tables/table.h"
#include "services/text/utf8.h"

namespace rowproof::client {
namespace {

constexpr size_t kTextColumn = 30;

constexpr char kProgramHelp[] =
    "rowproof: charts, test calls and releases of mosaic crochet patterns\n"
    "\n"
    "Chart      check      find what cannot be worked    repair     change as little as possible\n"
    "           repeats    find what is repeated         convert    to another technique\n"
    "           import     show how a file is read       export     write the cells to a file\n"
    "           draw       the chart or the fabric       design     keep the options in a file\n"
    "Rows       rows       write a chart as rows         compare    your rows with the chart\n"
    "           read       show how rows are read\n"
    "Yarn       estimate   yarn, size and time           calibrate  by a swatch of yours\n"
    "           calibration  what your stitches take, kept on the server\n"
    "Pattern    pattern    your patterns                 version    submit, show and compare\n"
    "           editor     who else may read             account    tokens and personal data\n"
    "Testing    testcall   call for testers              seat       offer, take, fill in\n"
    "           report     what testers report           erratum    decide on faults\n"
    "           reconcile  measured and predicted\n"
    "Release    release    gates, publish, fetch         call       any method of the API\n"
    "\n"
    "\"rowproof COMMAND --help\" explains a command. --version prints the version.\n";

// Commands that ask a server, at least with some of their options.
bool AsksServer(const CLI::App* app) {
  static const auto& local =
      *new std::set<std::string>{"check", "repair", "repeats", "import",    "export", "draw",
                                 "rows",  "read",   "compare", "calibrate", "design"};
  while (app->get_parent() != nullptr && app->get_parent()->get_parent() != nullptr) {
    app = app->get_parent();
  }
  return !local.contains(app->get_name());
}

std::string PathOf(const CLI::App* app) {
  if (app->get_parent() == nullptr) return "rowproof";
  return PathOf(app->get_parent()) + " " + app->get_name();
}

// A heading with its text next to it, or below it if there is no room.
std::string Entry(const std::string& head, const std::string& text) {
  const std::string indented = "  " + head;
  if (text::CharacterCount(indented) + 2 > kTextColumn) {
    return indented + "\n" + Paragraph(std::string(kTextColumn, ' '), text);
  }
  return Paragraph(indented + std::string(kTextColumn - text::CharacterCount(indented), ' '), text);
}

bool TakesValue(const CLI::Option& option) { return option.get_items_expected_max() > 0; }

// What an option takes: words, or the kind of value.
std::string ValueOf(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  if (type.find('|') != std::string::npos) return type.substr(type.find(':') + 1);
  if (type.starts_with("INT") || type.starts_with("UINT") || type.starts_with("FLOAT")) return "N";
  return type.substr(0, type.find(':'));
}

std::string HeadOf(const CLI::Option& option) {
  std::string names;
  for (const std::string& name : option.get_snames()) names += "-" + name + ", ";
  for (const std::string& name : option.get_lnames()) names += "--" + name;
  return TakesValue(option) ? names + " " + ValueOf(option) : names;
}

// Options of a group, of a command or of the program.
std::string OptionsText(const CLI::App& app, const std::string& group) {
  std::string text;
  for (const CLI::Option* option : app.get_options()) {
    if (option->get_positional() || option->get_group() != group) continue;
    text += Entry(HeadOf(*option), option->get_description());
  }
  return text;
}

// Groups of the command, as they first occur; then what has no group.
std::string GroupsText(const CLI::App& app) {
  const std::string plain = "Options";
  std::vector<std::string> groups;
  std::set<std::string> known{plain, "", kOutputGroup, kServerGroup};
  for (const CLI::Option* option : app.get_options()) {
    if (known.insert(option->get_group()).second) groups.push_back(option->get_group());
  }
  std::string text;
  const auto add = [&text](const std::string& head, const std::string& options) {
    if (!options.empty()) text += "\n" + head + ":\n" + options;
  };
  add(plain, OptionsText(app, plain));
  for (const std::string& group : groups) add(group, OptionsText(app, group));
  const CLI::App* program = &app;
  while (program->get_parent() != nullptr) program = program->get_parent();
  add(kOutputGroup, OptionsText(app, kOutputGroup) + OptionsText(*program, kOutputGroup));
  if (AsksServer(&app)) add(kServerGroup, OptionsText(*program, kServerGroup));
  return text;
}

// A value as an example shows it: a resource name from its help, or by what it is called.
std::string SampleOf(const std::string& name, const std::string& help) {
  static const auto& samples =
      *new std::map<std::string, std::string>{{"FILE", "mat.png"},
                                              {"TEXTFILE", "rows.txt"},
                                              {"TITLE", "\"Reed Mat\""},
                                              {"FORM", "form.txt"},
                                              {"INVITATION", "offer.txt"},
                                              {"SIZE", "wide"},
                                              {"LABEL", "laptop"},
                                              {"QUANTITY", "width"},
                                              {"WORD", "met-it-too"},
                                              {"KIND", "pattern-sheet-pdf"},
                                              {"--name", "\"Ada (invented)\""},
                                              {"--title", "\"Reed Mat\""},
                                              {"--want", "wide:4:3"},
                                              {"--note", "\"measured wet\""}};
  const size_t at = help.find("/...");
  if (at != std::string::npos) {
    size_t from = help.rfind(' ', at);
    from = from == std::string::npos ? 0 : from + 1;
    std::string sample;
    char letter = 'x';
    for (size_t i = from; i < help.size() && help[i] != ' ' && help[i] != ')' && help[i] != ',';
         ++i) {
      if (help.compare(i, 3, "...") == 0) {
        sample += fmt::format("{}1", letter);
        i += 2;
        continue;
      }
      if (i == from || help[i - 1] == '/') letter = help[i];
      sample += help[i];
    }
    return sample;
  }
  const auto found = samples.find(name);
  return found == samples.end() ? name : found->second;
}

std::string MadeExample(const CLI::App& app) {
  std::string example = PathOf(&app);
  for (const CLI::Option* option : app.get_options()) {
    if (!option->get_required()) continue;
    const std::string name =
        option->get_positional() ? option->get_name(true) : "--" + option->get_lnames().front();
    if (!option->get_positional()) example += " " + name;
    example += " " + SampleOf(name, option->get_description());
  }
  return ExampleText(example);
}

std::string CommandHelp(const CLI::App& app) {
  std::string text = Paragraph("", Sentence(app.get_description()));
  std::string usage = "Usage: " + PathOf(&app);
  std::string positionals;
  for (const CLI::Option* option : app.get_options()) {
    if (!option->get_positional()) continue;
    const std::string name = option->get_name(true);
    usage += option->get_required() ? " " + name : " [" + name + "]";
    positionals += Entry(name, option->get_description());
  }
  text += usage + " [OPTIONS]\n";
  if (!positionals.empty()) text += "\n" + positionals;
  text += GroupsText(app);
  const bool has_own = app.get_footer() != app.get_parent()->get_footer();
  return text + "\n" + (has_own ? app.get_footer() : MadeExample(app)) + kExitCodesHelp + "\n";
}

std::string NounHelp(const CLI::App& app) {
  std::string text = Paragraph("", Sentence(app.get_description())) + "\n";
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    text += Entry(command->get_name(), command->get_description());
  }
  return text + fmt::format("\n\"{} COMMAND --help\" explains a command.\n{}\n", PathOf(&app),
                            kExitCodesHelp);
}

}  // namespace

std::string ExampleText(const std::string& example) { return Paragraph("Example: ", example); }

std::string HelpFormatter::make_help(const CLI::App* app, std::string, CLI::AppFormatMode) const {
  if (app->get_parent() == nullptr) return kProgramHelp + std::string(kExitCodesHelp) + "\n";
  const bool is_noun = !app->get_subcommands([](const CLI::App*) { return true; }).empty();
  return is_noun ? NounHelp(*app) : CommandHelp(*app);
}

}  // namespace rowproof::client
