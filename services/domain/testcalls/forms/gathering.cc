#include "services/domain/testcalls/forms/gathering.h"

#include <string>

#include "fmt/format.h"
#include "services/domain/testcalls/forms/lines.h"

namespace rowproof::testcalls {
namespace {

class Gatherer {
 public:
  explicit Gatherer(std::vector<FormFinding>& findings) : findings_(findings) {}

  void Read(const FormLine& line) {
    switch (line.kind) {
      case LineKind::kBlank:
        after_blank_ = true;
        in_stray_ = false;
        return;
      case LineKind::kHelp:
        open_ = false;
        in_stray_ = false;
        return;
      case LineKind::kSignature:
        if (!answers_.empty()) signed_ = true;
        return;
      case LineKind::kWords:
        ReadWords(line);
        after_blank_ = false;
        return;
    }
  }

  std::vector<Answer> Take() { return std::move(answers_); }

 private:
  void Find(const FormLine& line, bool error, std::string sentence) {
    const Place place = line.words.PlaceOf(0);
    findings_.push_back({place.line, place.column, error, "", std::move(sentence)});
  }

  void ReadWords(const FormLine& line) {
    size_t after = 0;
    const std::optional<Label> label = LabelAtStart(line.words.text, &after);
    if (signed_) return ReadAfterSignature(line, label, after);
    if (label.has_value()) return Begin(line, *label, after);
    if (answers_.empty()) return PassOver(line, "text before the form is ignored");
    if (ended_) return PassOver(line, "text after the form is ignored");
    if (open_ && Continues(line)) return Continue(line);
    if (!in_stray_) Find(line, true, StraySentence(line));
    in_stray_ = true;
    open_ = false;
  }

  void ReadAfterSignature(const FormLine& line, const std::optional<Label>& label, size_t after) {
    if (label.has_value() && after < line.words.text.size() && !answers_lost_) {
      answers_lost_ = true;
      Find(line, true,
           "this answer comes after a line \"--\", which ends a mail; please move it above that "
           "line");
      return;
    }
    PassOver(line, "text after the signature is ignored");
  }

  void PassOver(const FormLine& line, const char* sentence) {
    if (passed_over_ == sentence) return;
    passed_over_ = sentence;
    Find(line, false, sentence);
  }

  void Begin(const FormLine& line, Label label, size_t after) {
    in_stray_ = false;
    ended_ = label.question == Question::kEnd;
    open_ = !ended_;
    if (label.question == Question::kErratum) erratum_ = ++errata_;
    if (!IsOfErratum(label.question) && label.question != Question::kErratum) erratum_ = -1;
    if (IsOfErratum(label.question) && erratum_ < 0) {
      Find(line, true, fmt::format("\"{}:\" belongs below a line \"erratum:\"", LabelText(label)));
    }
    answers_.push_back({label, erratum_, line.words.From(after), line.words.PlaceOf(0)});
  }

  // Whether words without a label continue the last answer. An empty answer may continue on the
  // line below its label; remarks may have paragraphs.
  bool Continues(const FormLine& line) const {
    const Answer& answer = answers_.back();
    const std::optional<std::string> words = WordsBeforeColon(line.words.text);
    if (words.has_value()) {
      if (FindSimilarLabel(*words).has_value()) return false;
      if (!IsFreeText(answer.label.question)) return false;
    }
    return !after_blank_ || answer.value.empty() || answer.label.question == Question::kRemarks;
  }

  void Continue(const FormLine& line) {
    PlacedText& value = answers_.back().value;
    if (!value.empty()) value.Append(after_blank_ ? '\n' : ' ', line.words.PlaceOf(0));
    value.Append(line.words);
  }

  static std::string StraySentence(const FormLine& line) {
    const std::optional<std::string> words = WordsBeforeColon(line.words.text);
    if (!words.has_value()) {
      return "this line belongs to no question; please write each answer after its question";
    }
    const std::optional<Label> similar = FindSimilarLabel(*words);
    if (!similar.has_value()) return fmt::format("the form has no question \"{}:\"", *words);
    return fmt::format("the form has no question \"{}:\"; did you mean \"{}:\"?", *words,
                       LabelText(*similar));
  }

  std::vector<FormFinding>& findings_;
  std::vector<Answer> answers_;
  std::string passed_over_;
  int errata_ = -1;
  int erratum_ = -1;          // section at hand
  bool open_ = false;         // the last answer may continue
  bool after_blank_ = false;  // since the last words
  bool in_stray_ = false;     // inside a block that was found to belong nowhere
  bool ended_ = false;
  bool signed_ = false;
  bool answers_lost_ = false;
};

}  // namespace

std::vector<Answer> GatherAnswers(const std::vector<FormLine>& lines,
                                  std::vector<FormFinding>& findings) {
  Gatherer gatherer(findings);
  for (const FormLine& line : lines) gatherer.Read(line);
  return gatherer.Take();
}

}  // namespace rowproof::testcalls
