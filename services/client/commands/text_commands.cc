// read, compare: commands on the file of a designer's own text.

#include <memory>
#include <string>
#include <vector>

#include "rowproof/v1/chart_service.pb.h"
#include "services/client/chart_command.h"
#include "services/client/commands/commands.h"
#include "services/client/connection.h"
#include "services/client/files.h"
#include "services/client/help_formatter.h"
#include "services/client/parsing/chart_texts.h"
#include "services/client/parsing/choices.h"
#include "services/client/tables/text.h"

namespace rowproof::client {
namespace {

constexpr size_t kLargestText = size_t{4} << 20;  // as the service accepts it

// What is known about a text besides its words.
struct TextOptions {
  std::string file;
  std::string terms;
  std::vector<std::string> colour_names;
  std::vector<std::string> stitches;
};

// "xs=drop".
v1::DefinedStitch StitchOf(const std::string& text) {
  const size_t equals = text.find('=');
  const std::string meaning = equals == std::string::npos ? "" : text.substr(equals + 1);
  v1::DefinedStitch stitch;
  stitch.set_name(text.substr(0, equals));
  stitch.set_meaning(EnumOf<v1::StitchMeaning>(StitchMeanings(), meaning));
  if (stitch.meaning() == v1::STITCH_MEANING_UNSPECIFIED) {
    throw MustBe("--stitch", "NAME=drop or NAME=plain, such as xs=drop", text);
  }
  return stitch;
}

template <typename Request>
void Put(const TextOptions& options, Request* request) {
  request->set_text(ReadTextFile(options.file, kLargestText));
  request->set_terms(EnumOf<v1::Terms>(TermsWords(), options.terms));
  for (size_t i = 0; i < options.colour_names.size(); ++i) {
    auto* named = request->add_colour_names();
    named->set_name(options.colour_names[i]);
    named->set_colour(static_cast<v1::Colour>(i + 1));
  }
  for (const std::string& text : options.stitches) *request->add_definitions() = StitchOf(text);
}

void AddStitchOption(CLI::App& command, TextOptions& options) {
  command
      .add_option("--stitch", options.stitches,
                  "A stitch that the text names in its own way: NAME=drop or NAME=plain; may be "
                  "repeated")
      ->expected(1)
      ->take_all()
      ->group(kRowsGroup);
}

struct ReadCommand {
  TextOptions text;
  std::vector<std::string> sizes;
  const OutputOptions* output = nullptr;
  ExitCode* exit_code = nullptr;

  void Run() const {
    v1::ReadRowsRequest request;
    Put(text, &request);
    for (const std::string& size : sizes) request.add_sizes(size);
    const auto answer = Connection::Local().Ask<v1::TextRows>("ChartService.ReadRows", request);
    WriteFile(output->out, output->json ? JsonOf(answer) : TextOf(answer, output->style));
    if (answer.error_count() > 0) *exit_code = ExitCode::kContentHasErrors;
  }
};

// Terms and colours' names are the chart options, as in every command on a chart.
struct CompareCommand : ChartCommand {
  TextOptions text;
  bool all_rows = false;

  explicit CompareCommand(const ChartCommand& shared) : ChartCommand(shared) {}

  void Run() {
    if (text.file.empty()) text.file = options.printed.text;
    if (text.file.empty()) {
      throw Failure(ExitCode::kUsage,
                    "TEXTFILE is missing: name the file of your rows, or set text in the design "
                    "file");
    }
    if (source.file == "-" && text.file == "-") {
      throw Failure(ExitCode::kUsage,
                    "TEXTFILE must be a file if the chart is standard input (got \"-\")");
    }
    text.terms = options.chart.terms;
    text.colour_names = options.chart.colour_names;
    v1::CompareRowsRequest request;
    *request.mutable_design() = design();
    request.set_hand(EnumOf<v1::Hand>(Hands(), options.chart.hand));
    Put(text, &request);
    const auto answer =
        Connection::Local().Ask<v1::TextComparison>("ChartService.CompareRows", request);
    Show(answer, TextOf(answer, output->style, all_rows));
    if (!answer.equal()) *exit_code = ExitCode::kContentHasErrors;
  }
};

}  // namespace

void AddReadCommand(CLI::App& app, const OutputOptions& output, ExitCode& exit_code) {
  const auto command = std::make_shared<ReadCommand>();
  command->output = &output;
  command->exit_code = &exit_code;
  auto* added = app.add_subcommand("read", "Show how written rows are read, without a chart");
  added->footer(ExampleText("rowproof read rows.txt --colour-name cream --colour-name slate"));
  added->add_option("TEXTFILE", command->text.file, "The written rows; - is standard input")
      ->required();
  AddWord(*added, "--terms", command->text.terms, TermsWords(),
          "Stitch names (default: as the text says or shows)")
      ->group(kRowsGroup);
  AddTexts(*added, "--colour-name", command->text.colour_names,
           "What the text calls colour A; again for B, and so on (default: as it says)")
      ->group(kRowsGroup);
  AddStitchOption(*added, command->text);
  added
      ->add_option(
          "--size-name", command->sizes,
          "A size, in the order of the text's lists of numbers; may be repeated (default: as "
          "the text says)")
      ->expected(1)
      ->take_all()
      ->group(kRowsGroup);
  added->callback([command] { command->Run(); });
}

void AddCompareCommand(CLI::App& app, const ChartCommand& shared) {
  const auto command = std::make_shared<CompareCommand>(shared);
  OptionUse use;
  use.chart.hand = use.chart.terms = use.chart.colour_names = true;
  use.materials.foundation = true;
  auto* added = AddChartCommand(app, "compare", "Compare your written rows with the chart",
                                "rowproof compare mat.png rows.txt --terms uk", use, command,
                                [c = command.get()] { c->Run(); });
  added->add_option("TEXTFILE", command->text.file,
                    "The written rows; - is standard input (default: the design file's text)");
  AddStitchOption(*added, command->text);
  added
      ->add_flag("--all-rows", command->all_rows,
                 "Show the rows that agree as well, with both texts")
      ->group(kOutputGroup);
}

}  // namespace rowproof::client
