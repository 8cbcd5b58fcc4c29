// The answers of one form by question, and the findings about them. Not thread-safe; lives while
// one form is read.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWER_SHEET_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWER_SHEET_H_

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "services/domain/testcalls/forms/answers.h"
#include "services/domain/testcalls/forms/form.h"
#include "services/domain/testcalls/forms/gathering.h"
#include "services/domain/testcalls/forms/lines.h"
#include "services/domain/testcalls/forms/reader.h"

namespace rowproof::testcalls {

// If `section` is asked for, it is the index of an erratum's section, or -1 outside of them.
class AnswerSheet {
 public:
  // A question answered twice and differently becomes a finding; the first answer counts.
  AnswerSheet(std::vector<Answer> answers, FormReading& reading);
  AnswerSheet(const AnswerSheet&) = delete;
  AnswerSheet& operator=(const AnswerSheet&) = delete;

  int section_count() const { return section_count_; }
  bool SectionIsAnswered(int section) const { return answered_sections_.count(section) > 0; }

  // The answer to a question; nullptr if there is none or an empty one.
  const Answer* Find(const Label& label, int section = -1) const;
  // Whether the form has the question.
  bool IsAsked(const Label& label, int section = -1) const;
  // All answers to a question that may be repeated, in their order.
  std::vector<const Answer*> All(const Label& label, bool with_empty = false) const;
  std::string Text(const Label& label, int section = -1) const;

  // Reads the answer by `parse`. False if there is none or it became a finding; `value` is then
  // as it was.
  template <typename T>
  bool Take(const Label& label, const std::string& field,
            bool (*parse)(std::string_view, T*, Problem*), T* value, int section = -1) {
    Note(label, field, section);
    const Answer* answer = Find(label, section);
    return answer != nullptr && Parse(*answer, field, parse, value);
  }
  template <typename T>
  void TakeOptional(const Label& label, const std::string& field,
                    bool (*parse)(std::string_view, T*, Problem*), std::optional<T>* value) {
    T read{};
    if (Take(label, field, parse, &read)) *value = read;
  }
  template <typename T>
  bool Parse(const Answer& answer, const std::string& field,
             bool (*parse)(std::string_view, T*, Problem*), T* value) {
    const PlacedText folded = Folded(answer.value);
    T read = *value;
    Problem problem;
    if (parse(folded.text, &read, &problem)) {
      *value = std::move(read);
      return true;
    }
    const Place place = folded.PlaceOf(problem.offset);
    Add(place, field, '"' + LabelText(answer.label) + "\": " + problem.sentence);
    return false;
  }

  // Findings. Missing is ignored if the question has an answer, which then is a finding already.
  // Its place is the question's label, or line 0 if the form has none.
  void Missing(const Label& label, const std::string& field, const std::string& accepted,
               int section = -1);
  void Refuse(const Label& label, const std::string& field, const std::string& sentence,
              int section = -1);
  void RefuseAt(const Answer& answer, size_t offset, const std::string& field,
                const std::string& sentence);
  void RefuseSection(int section, const std::string& field, const std::string& sentence);

 private:
  void Add(Place place, const std::string& field, std::string sentence);
  // Which question answers the field.
  void Note(const Label& label, const std::string& field, int section);
  void Enter(size_t index);

  std::vector<Answer> answers_;
  FormReading& reading_;
  std::map<std::pair<int, Label>, size_t> by_question_;  // section and label -> first answer
  std::map<Label, std::vector<size_t>> repeated_;
  std::map<int, size_t> answered_sections_;  // -> label of the first answer
  int section_count_ = 0;
};

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_ANSWER_SHEET_H_
