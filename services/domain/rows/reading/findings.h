// Collects what is wrong with a text, within its limit.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_FINDINGS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_FINDINGS_H_

#include <string>
#include <string_view>
#include <vector>

#include "services/domain/rows/reading/reader.h"

namespace rowproof::rows {

class TextFindings {
 public:
  void Add(TextFinding finding);
  // Notes that are counted and not kept.
  void CountNotes(int64_t count) { note_count_ += count; }
  // Errors before others if not all can be kept; then by place.
  void MoveTo(TextDocument& document);

 private:
  std::vector<TextFinding> errors_;
  std::vector<TextFinding> others_;
  int64_t error_count_ = 0;
  int64_t warning_count_ = 0;
  int64_t note_count_ = 0;
};

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_FINDINGS_H_
