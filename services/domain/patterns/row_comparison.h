// Compares any row of one version with any row of another, word by word. Used by AlignRows only.
#ifndef ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_COMPARISON_H_
#define ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_COMPARISON_H_

#include <cstddef>
#include <cstdint>
#include <vector>

#include "services/domain/patterns/row_alignment.h"
#include "services/domain/patterns/row_contents.h"

namespace rowproof::patterns {

// Rows are indices from 0. Keeps references: both contents must outlive it. Const access is
// thread-safe.
class RowComparison {
 public:
  RowComparison(const RowContents& before, const RowContents& after);

  // One number for each row; two numbers are equal exactly if the rows, of either version, are.
  const std::vector<uint32_t>& before_ids() const { return before_ids_; }
  const std::vector<uint32_t>& after_ids() const { return after_ids_; }

  size_t words() const { return words_; }

  // Twice the stitches in common less the longer row's stitches; less half of those for another
  // colour and an eighth for another side. Not negative: at least half of the row is as it was.
  int Score(size_t before, size_t after) const;

  // The difference of two rows that are not equal, with its ranges; row numbers are set.
  RowDifference Changed(size_t before, size_t after) const;

 private:
  // Words of one row; a row without drops or skips points at zeros.
  struct Words {
    const uint64_t* drops = nullptr;
    const uint64_t* skips = nullptr;
  };
  struct Version {
    std::vector<Words> rows;
    std::vector<Words> reversed;  // stitch order reversed; only if the counts differ
    chart::Grid turned;
  };

  static std::vector<Words> Point(const RowContents& contents, const chart::Grid& stitches,
                                  const uint64_t* zeros);
  void Intern();
  static uint64_t Differing(const Words& a, const Words& b, size_t word) {
    return (a.drops[word] ^ b.drops[word]) | (a.skips[word] ^ b.skips[word]);
  }
  int CommonStart(const Words& a, const Words& b) const;
  int CommonEnd(size_t before, size_t after, int start) const;
  void AddRanges(const Words& a, const Words& b, std::vector<StitchRange>& ranges) const;

  const RowContents& before_;
  const RowContents& after_;
  int before_stitches_;
  int after_stitches_;
  size_t words_;  // of the shorter row
  std::vector<uint64_t> zeros_;
  Version old_;
  Version new_;
  std::vector<uint32_t> before_ids_;
  std::vector<uint32_t> after_ids_;
};

}  // namespace rowproof::patterns

#endif  // ROWPROOF_SERVICES_DOMAIN_PATTERNS_ROW_COMPARISON_H_
