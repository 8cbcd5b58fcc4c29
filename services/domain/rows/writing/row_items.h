// A row's terms and outermost groups in words, in either repeat style and either system of terms.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_ITEMS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_ITEMS_H_

#include <string>
#include <vector>

#include "services/domain/rows/writing/shortest_form.h"
#include "services/domain/rows/writing/writer.h"

namespace rowproof::rows {

// What the words of a row depend on besides its stitches.
struct RowWords {
  const char* plain = "sc";
  const char* drop = "ssc";
  const char* skip = "sk";
  RepeatStyle style = RepeatStyle::kBrackets;
  bool round = false;
  // The technique has chain spaces: "the last N sts" of a row would be ambiguous.
  bool has_spaces = false;
};

// Of the technique, in the terms and the style asked for.
RowWords WordsOf(const chart::Design& design, const WriterSettings& settings);

// One term or one outermost group of a row. Vectors have one entry for each size.
struct Item {
  std::string text;        // of a term ("sc 3"), or what is inside a group
  std::vector<int> times;  // empty: a term
  std::vector<int> width;  // stitches of the chart that it takes up in all
};

// `count` of a stitch, or one chain space (`over_space`: over the chain space of the row before).
std::string Term(const RowWords& words, const Element& element, int count, bool over_space);
// A run of stitches, or one chain space, that is as long as a list says.
std::string ListedTerm(const RowWords& words, Stitch stitch, const std::vector<int>& lengths,
                       bool over_space);

// Steps by commas; brackets for all groups.
std::string StepsText(const RowWords& words, const std::vector<Step>& steps, bool over_space);
void AppendItems(const RowWords& words, const std::vector<Step>& steps, size_t sizes,
                 bool over_space, std::vector<Item>& items);

// The row. In the asterisk style one group is starred: `declared` (an index, -1: none) if it is
// there, else the group that takes up most stitches of the first size, the first among equals; none
// if some size would not work it.
std::string TextOf(const RowWords& words, const std::vector<Item>& items, int declared);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_WRITING_ROW_ITEMS_H_
