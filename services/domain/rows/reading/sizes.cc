#include "services/domain/rows/reading/sizes.h"

#include <algorithm>
#include <utility>

#include "fmt/format.h"

namespace rowproof::rows {
namespace {

struct NamedSizes {
  size_t begin = 0;  // token of the first name
  std::vector<std::string> names;
  bool more = false;  // a longer list than was asked for
};

// Names up to a full stop; if there are to be `known` of them, what follows their bracket is prose
// ("S (M, L) to fit 30 (35, 40) cm").
NamedSizes ReadNames(RowReading& line, size_t known) {
  NamedSizes read;
  read.begin = line.at();
  std::string name;
  const auto close_name = [&] {
    if (!name.empty() && name.size() <= chart::kLongestSizeName) read.names.push_back(name);
    name.clear();
  };
  for (; !line.AtEnd() && !line.Peek().is('.'); line.Pass()) {
    if (line.Peek().is('(') || line.Peek().is(')') || line.Peek().is(',')) {
      close_name();
      if (read.names.size() == known) {
        read.more = line.Peek().is(',') || (known == 1 && line.Peek().is('('));
        return read;
      }
      continue;
    }
    if (!name.empty() && !line.Peek().glued) name += ' ';
    name += line.TextOf(line.Peek());
  }
  close_name();
  return read;
}

std::string InWords(const std::vector<std::string>& sizes) {
  std::string words = sizes.front();
  for (size_t i = 1; i < sizes.size(); ++i) words += (i == 1 ? " (" : ", ") + sizes[i];
  return words + (sizes.size() > 1 ? ")" : "");
}

// Place in `sizes` of each of the names; nothing if they are not the same names.
std::vector<int> OrderOf(const std::vector<std::string>& names,
                         const std::vector<std::string>& sizes) {
  std::vector<int> order;
  for (const std::string& name : names) {
    const auto found = std::find_if(sizes.begin(), sizes.end(), [&](const std::string& size) {
      return LowerText(size) == LowerText(name);
    });
    const int place = static_cast<int>(found - sizes.begin());
    if (found == sizes.end() || std::find(order.begin(), order.end(), place) != order.end()) {
      return {};
    }
    order.push_back(place);
  }
  return order.size() == sizes.size() ? order : std::vector<int>();
}

void SetOrder(RowReading& line, NoteReading& note, const NamedSizes& read, std::vector<int> order) {
  if (std::is_sorted(order.begin(), order.end())) order.clear();
  if (std::exchange(note.order_known, true)) {
    if (order == note.context.size_order) return;
    line.Fail(TextFindingCode::kContradiction, read.begin, "the sizes in the order stated before");
    return;
  }
  note.context.size_order = std::move(order);
  auto& foundation = note.document.foundation;
  if (foundation.has_value() && foundation->chains.is_list()) {
    foundation->chains = SizedCount(note.context.ByName(foundation->chains.list()));
  }
}

// Against the sizes that are known.
void CompareSizes(RowReading& line, NoteReading& note) {
  const std::vector<std::string>& sizes = note.document.sizes;
  const std::string words = InWords(sizes);
  const std::string_view rest = note.context.text.substr(line.Peek().begin);
  NamedSizes read;
  std::vector<int> order;
  // As the writer names them: names may hold brackets and commas of their own.
  if (sizes.size() > 1 && LowerText(rest.substr(0, words.size())) == LowerText(words)) {
    read.begin = line.at();
    for (int size = 0; size < note.document.size_count(); ++size) order.push_back(size);
  } else {
    read = ReadNames(line, sizes.size());
    const bool one = sizes.size() == 1 && read.names.size() == 1 && !read.more;
    if (one || read.names.empty()) return;  // no order to keep
    if (!read.more) order = OrderOf(read.names, sizes);
  }
  if (!order.empty()) {
    SetOrder(line, note, read, std::move(order));
  } else if (!note.order_known) {
    line.Fail(TextFindingCode::kUnknownSize, read.begin, fmt::format("each size once: {}", words));
  }
}

}  // namespace

bool ReadSizes(RowReading& line, NoteReading& note) {
  while (!line.AtEnd() && !(line.Peek().is(Word::kSizes) && line.Peek(1).is(':') &&
                            (line.at() == 0 || line.Before().is('.')))) {
    line.Pass();
  }
  if (line.AtEnd()) return false;
  line.Pass(2);
  if (note.sizes_given) {
    CompareSizes(line, note);
    return true;
  }
  NamedSizes read = ReadNames(line, chart::kMostSizes + 1);
  if (read.names.empty() || read.names.size() > static_cast<size_t>(chart::kMostSizes)) {
    return false;
  }
  note.document.sizes = std::move(read.names);
  note.context.sizes = note.document.size_count();
  note.sizes_given = true;
  note.order_known = true;
  return true;
}

}  // namespace rowproof::rows
