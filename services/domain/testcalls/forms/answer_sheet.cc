#include "services/domain/testcalls/forms/answer_sheet.h"

#include <algorithm>

#include "fmt/format.h"
#include "services/domain/testcalls/forms/answers.h"
#include "services/domain/testcalls/forms/gathering.h"
#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/testcalls/forms/reader.h"

namespace rowproof::testcalls {

AnswerSheet::AnswerSheet(std::vector<Answer> answers, FormReading& reading)
    : answers_(std::move(answers)), reading_(reading) {
  for (size_t i = 0; i < answers_.size(); ++i) Enter(i);
}

void AnswerSheet::Enter(size_t index) {
  const Answer& answer = answers_[index];
  section_count_ = std::max(section_count_, answer.erratum + 1);
  const bool in_section = IsOfErratum(answer.label.question);
  if (in_section && answer.erratum >= 0 && !answer.value.empty()) {
    answered_sections_.emplace(answer.erratum, index);
  }
  if (IsRepeated(answer.label.question)) {
    repeated_[answer.label].push_back(index);
    return;
  }
  if (answer.label.question == Question::kErratum) {
    // Its own line carries at most a number for people.
    const std::string& number = answer.value.text;
    if (number.find_first_not_of("0123456789. ") != std::string::npos) {
      RefuseAt(answer, 0, "",
               "please describe the fault on the lines below (row, was, should be, ...)");
    }
    return;
  }
  const auto [entry, is_new] = by_question_.try_emplace({answer.erratum, answer.label}, index);
  if (is_new || answer.value.empty()) return;
  const Answer& first = answers_[entry->second];
  if (first.value.empty()) {
    entry->second = index;
  } else if (first.value.text != answer.value.text) {
    Add(answer.place, "",
        fmt::format("\"{}\" is already answered in line {}; please delete one answer{}",
                    LabelText(answer.label), first.place.line,
                    in_section ? ", or begin each erratum with a line \"erratum:\"" : ""));
  }
}

const Answer* AnswerSheet::Find(const Label& label, int section) const {
  const auto found = by_question_.find({section, label});
  if (found == by_question_.end() || answers_[found->second].value.empty()) return nullptr;
  return &answers_[found->second];
}

bool AnswerSheet::IsAsked(const Label& label, int section) const {
  return by_question_.count({section, label}) > 0;
}

std::vector<const Answer*> AnswerSheet::All(const Label& label, bool with_empty) const {
  std::vector<const Answer*> all;
  const auto found = repeated_.find(label);
  if (found == repeated_.end()) return all;
  for (const size_t index : found->second) {
    if (with_empty || !answers_[index].value.empty()) all.push_back(&answers_[index]);
  }
  return all;
}

std::string AnswerSheet::Text(const Label& label, int section) const {
  const Answer* answer = Find(label, section);
  return answer == nullptr ? "" : NormalisedText(answer->value.text, false);
}

void AnswerSheet::Missing(const Label& label, const std::string& field, const std::string& accepted,
                          int section) {
  if (Find(label, section) != nullptr) return;
  Place place;
  if (const auto found = by_question_.find({section, label}); found != by_question_.end()) {
    place = answers_[found->second].place;
  } else if (const auto first = answered_sections_.find(section);
             first != answered_sections_.end()) {
    place = answers_[first->second].place;
  }
  Add(place, field, fmt::format("\"{}\": {}", LabelText(label), Asked(accepted)));
}

void AnswerSheet::Refuse(const Label& label, const std::string& field, const std::string& sentence,
                         int section) {
  const Answer* answer = Find(label, section);
  if (answer != nullptr) RefuseAt(*answer, 0, field, sentence);
}

void AnswerSheet::RefuseAt(const Answer& answer, size_t offset, const std::string& field,
                           const std::string& sentence) {
  Add(answer.value.PlaceOf(offset), field,
      fmt::format("\"{}\": {}", LabelText(answer.label), sentence));
}

void AnswerSheet::RefuseSection(int section, const std::string& field,
                                const std::string& sentence) {
  const auto found = std::find_if(answers_.begin(), answers_.end(),
                                  [&](const Answer& answer) { return answer.erratum == section; });
  if (found != answers_.end()) Add(found->place, field, sentence);
}

void AnswerSheet::Note(const Label& label, const std::string& field, int section) {
  FormQuestion question{0, LabelText(label)};
  const auto found = by_question_.find({section, label});
  if (found != by_question_.end()) question.line = answers_[found->second].place.line;
  // A yarn that nothing is said of leaves its place in the report to the next.
  reading_.questions.insert_or_assign(field, std::move(question));
}

void AnswerSheet::Add(Place place, const std::string& field, std::string sentence) {
  reading_.findings.push_back({place.line, place.column, true, field, std::move(sentence)});
}

}  // namespace rowproof::testcalls
