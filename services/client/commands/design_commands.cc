// design new, design show.
#include <filesystem>
#include <memory>

#include "fmt/format.h"
#include "rowproof/v1/pattern.pb.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/design/file.h"
#include "services/client/design/keys.h"
#include "services/client/design/tables.h"
#include "services/client/design/text.h"
#include "services/client/files.h"
#include "services/client/help_formatter.h"
#include "services/client/tables/conversion.h"
#include "services/client/tables/design.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

// Every option that a design file holds, in the groups of the commands that use it.
CLI::App* AddDesignCommand(CLI::App& noun, const char* name, const char* help, const char* example,
                           const std::shared_ptr<ChartCommand>& command,
                           std::function<void()> run) {
  auto* added = noun.add_subcommand(name, help);
  added->footer(ExampleText(example));
  AddChartSource(*added, command->source);
  DesignOptions& o = command->options;
  ChartUse chart;
  chart.hand = chart.terms = chart.colour_names = chart.rows = true;
  AddChartOptions(*added, o.chart, chart);
  AddMaterialsOptions(*added, o.materials, {true, true, true, false});
  const auto hidden = [](CLI::Option* option) { option->group(kHiddenGroup); };
  hidden(added->get_option("--materials"));
  const auto grouped = [](CLI::Option* option, const char* group) { option->group(group); };
  grouped(added->add_option("--minutes-per-end", o.minutes_per_end,
                            "Minutes to weave in an end (default: 1.5)"),
          kMaterialsGroup);
  for (const auto& [option, value] : {std::pair{"--longest-carried-run", &o.longest_carried_run},
                                      std::pair{"--longest-skip", &o.longest_skip},
                                      std::pair{"--longest-flap", &o.longest_flap}}) {
    grouped(added->add_option(option, *value, "As for check"), kChartGroup);
  }
  grouped(AddTexts(*added, "--shade", o.shades, "What a yarn looks like, such as A=#f2e6cf"),
          "Drawing");
  grouped(added->add_option("--wrong-side-share", o.wrong_side_share, "As for draw"), "Drawing");
  for (const auto& [option, value] :
       {std::pair{"--title", &o.printed.title}, std::pair{"--level", &o.printed.level},
        std::pair{"--introduction", &o.printed.introduction},
        std::pair{"--notes", &o.printed.notes}, std::pair{"--finishing", &o.printed.finishing},
        std::pair{"--text", &o.printed.text}}) {
    grouped(added->add_option(option, *value, "As for version submit"), "Pattern");
  }
  added->callback([command, run = std::move(run)] { run(); });
  return added;
}

std::vector<std::string> HeadingOf(const ChartCommand& command, const std::string& path) {
  std::string reading =
      ReadingText(FileOf(command.options.chart, command.content), command.source.file, "");
  while (reading.ends_with('\n')) reading.pop_back();
  return {
      fmt::format("The design of {}. \"rowproof design new\" wrote it; change it as you like.",
                  command.source.file),
      fmt::format("Commands on {} read {} beside it by themselves; options override it.",
                  command.source.file, path),
      reading,
      "A line after # is an example of a key that is not set; until it is set, its default holds."};
}

// First, so that an error names the option and not a line of a file that is not written yet.
void CheckTables(const DesignOptions& typed) {
  DesignOptions options = typed;
  for (const DesignTable& table : DesignTables()) {
    const DesignField field = table.field(options);
    if (const auto* text = std::get_if<std::string*>(&field); text != nullptr) {
      if (!(*text)->empty()) table.check(table.option, **text);
    } else if (const auto* texts = std::get_if<std::vector<std::string>*>(&field)) {
      for (const std::string& one : **texts) table.check(table.option, one);
    }
  }
}

void New(ChartCommand& command) {
  CheckTables(command.options);
  command.content = ReadFile(command.source.file);
  if (!command.source.without_design && !command.source.design_path.empty()) {
    FillFrom(ReadDesignFile(command.source.design_path).options, &command.options);
  }
  const std::string path =
      command.output->out.empty() ? DesignPathBeside(command.source.file) : command.output->out;
  if (path.empty()) {
    throw Failure(ExitCode::kUsage, "--out is missing: a chart from standard input has no name");
  }
  std::error_code unknown;
  if (path != "-" && std::filesystem::exists(path, unknown)) {
    throw Failure(ExitCode::kRefused,
                  fmt::format("\"{}\" exists already: change it, remove it, or give --out FILE",
                              text::OneLine(path)));
  }
  const std::string folder = std::filesystem::path(path).parent_path().string();
  const std::string text = DesignText(command.options, folder, HeadingOf(command, path));
  // What is written must be readable: an option with a wrong text is refused now.
  ParseDesign(path, text);
  WriteFile(path, text);
  if (path == "-" || command.output->json) return;
  WriteFile("",
            ReadingText(FileOf(command.options.chart, command.content), command.source.file, "") +
                fmt::format("Wrote {}. \"rowproof design show {}\" explains it.\n", path,
                            command.source.file));
}

void Show(ChartCommand& command) {
  const DesignOptions typed = command.options;
  const DesignFile file = command.source.without_design
                              ? DesignFile()
                              : FindDesignFile(command.source.design_path, command.source.file);
  FillFrom(file.options, &command.options);
  command.content = ReadFile(command.source.file);
  v1::VersionContent content;
  *content.mutable_design() = command.design();
  *content.mutable_materials() = MaterialsOf(command.options.materials);
  content.set_title(command.options.printed.title);
  content.set_level(command.options.printed.level);
  const std::string reading = ReadingText(content.design().file(), command.source.file, "");
  WriteFile(command.output->out,
            command.output->json ? JsonOf(content)
                                 : reading + TextOf(file, typed, command.output->style.details));
}

}  // namespace

void AddDesignCommands(CLI::App& app, const ChartCommand& shared) {
  auto* noun = app.add_subcommand(
      "design",
      "A file beside the chart that holds its options, so that no command needs them again");
  noun->require_subcommand(1);
  const auto written = std::make_shared<ChartCommand>(shared);
  AddDesignCommand(
      *noun, "new", "Write a design file of the options, with comments",
      "rowproof design new mat.png --technique spike --gauge 14x16/4in --weight-class 4", written,
      [c = written.get()] { New(*c); });
  const auto shown = std::make_shared<ChartCommand>(shared);
  AddDesignCommand(*noun, "show", "Explain what applies to a chart and where it comes from",
                   "rowproof design show mat.png --details", shown,
                   [c = shown.get()] { Show(*c); });
}

}  // namespace rowproof::client
