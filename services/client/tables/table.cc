#include "services/client/tables/table.h"

#include <algorithm>
#include <numeric>

#include "fmt/format.h"
#include "services/client/failure.h"
#include "services/text/utf8.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

constexpr size_t kGap = 2;
constexpr size_t kNarrowest = 8;

std::string Padded(const std::string& text, size_t columns, Table::Side side) {
  const size_t used = text::CharacterCount(text);
  const std::string space(columns > used ? columns - used : 0, ' ');
  return side == Table::Side::kLeft ? text + space : space + text;
}

void AppendLine(std::string& out, std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  out += line + "\n";
}

}  // namespace

std::string Paragraph(const std::string& first, const std::string& text) {
  std::string out;
  text::AppendWrapped(out, first, text, kPageColumns);
  if (out.empty()) AppendLine(out, first);
  return out;
}

std::string Sentence(const std::string& text) {
  const bool ended = !text.empty() && std::string(".!?:").find(text.back()) != std::string::npos;
  return ended ? text : text + ".";
}

std::string Counted(int64_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

Table& Table::Column(std::string head, Side side) {
  heads_.push_back(std::move(head));
  sides_.push_back(side);
  return *this;
}

void Table::Row(std::vector<std::string> cells, const std::string& caption) {
  cells.resize(heads_.size());
  for (auto& cell : cells) cell = text::OneLine(cell);
  rows_.push_back(std::move(cells));
  captions_.push_back(text::OneLine(caption));
}

std::vector<size_t> Table::Widths() const {
  std::vector<size_t> widths;
  for (const auto& head : heads_) widths.push_back(text::CharacterCount(head));
  for (const auto& row : rows_) {
    for (size_t i = 0; i < row.size(); ++i)
      widths[i] = std::max(widths[i], text::CharacterCount(row[i]));
  }
  const auto total = [&] {
    return std::accumulate(widths.begin(), widths.end(), kGap * (widths.size() - 1));
  };
  // The last column gives way first, then whichever is widest.
  if (total() > kPageColumns) {
    const size_t over = total() - kPageColumns;
    widths.back() = std::max(std::min<size_t>(widths.back(), 30),
                             widths.back() > over ? widths.back() - over : 0);
  }
  while (total() > kPageColumns) {
    const auto widest = std::max_element(widths.begin(), widths.end());
    if (*widest <= kNarrowest) break;
    --*widest;
  }
  return widths;
}

std::string Table::Text() const {
  const std::vector<size_t> widths = Widths();
  std::string out;
  const auto add = [&](const std::vector<std::string>& cells) {
    std::vector<std::vector<std::string>> wrapped;
    size_t height = 1;
    for (size_t i = 0; i < cells.size(); ++i) {
      wrapped.push_back(text::Wrap(cells[i], widths[i]));
      height = std::max(height, wrapped.back().size());
    }
    for (size_t at = 0; at < height; ++at) {
      std::string line;
      for (size_t i = 0; i < cells.size(); ++i) {
        if (i > 0) line += std::string(kGap, ' ');
        line += Padded(at < wrapped[i].size() ? wrapped[i][at] : "", widths[i], sides_[i]);
      }
      AppendLine(out, std::move(line));
    }
  };
  add(heads_);
  std::string rule;
  for (size_t i = 0; i < widths.size(); ++i) {
    rule += (i > 0 ? std::string(kGap, ' ') : "") + std::string(widths[i], '-');
  }
  AppendLine(out, rule);
  for (size_t i = 0; i < rows_.size(); ++i) {
    if (!captions_[i].empty()) AppendLine(out, captions_[i]);
    add(rows_[i]);
  }
  return out;
}

}  // namespace rowproof::client
