#include "tests/drawing/drawn_file.h"

#include <unistd.h>

#include <array>
#include <cctype>
#include <cstdio>
#include <fstream>
#include <regex>
#include <sstream>

#include "gtest/gtest.h"

namespace rowproof::drawing {
namespace {

std::string Unescaped(std::string text) {
  const std::array<std::pair<const char*, const char*>, 5> entities = {
      {{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&amp;", "&"}}};
  for (const auto& [entity, plain] : entities) {
    for (size_t at; (at = text.find(entity)) != std::string::npos;) {
      text.replace(at, std::string(entity).size(), plain);
    }
  }
  return text;
}

std::string OneLine(const std::string& text) {
  std::string line;
  for (const char c : text) {
    if (std::isspace(static_cast<unsigned char>(c)) == 0) {
      line += c;
    } else if (!line.empty() && line.back() != ' ') {
      line += ' ';
    }
  }
  return line;
}

}  // namespace

DrawnFile::DrawnFile(const std::string& bytes, const std::string& ending)
    : path_(::testing::TempDir() + "rowproof_drawn_XXXXXX" + ending) {
  const int file = mkstemps(path_.data(), static_cast<int>(ending.size()));
  EXPECT_GE(file, 0) << path_;
  close(file);
  std::ofstream(path_, std::ios::binary) << bytes;
}

DrawnFile::~DrawnFile() { std::remove(path_.c_str()); }

std::string DrawnFile::Run(const std::string& command) const {
  std::string line = command;
  const size_t place = line.find("FILE");
  EXPECT_NE(place, std::string::npos);
  line.replace(place, 4, path_);
  FILE* pipe = popen(line.c_str(), "r");
  EXPECT_NE(pipe, nullptr);
  std::string output;
  std::array<char, 65536> buffer;
  for (size_t n; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    output.append(buffer.data(), n);
  }
  EXPECT_EQ(pclose(pipe), 0) << line << "\n" << output.substr(0, 2000);
  return output;
}

std::vector<std::string> DrawnFile::Pages() const {
  std::istringstream in(Run("pdftotext -layout FILE -"));
  std::vector<std::string> pages;
  for (std::string page; std::getline(in, page, '\f');) pages.push_back(OneLine(page));
  return pages;
}

std::string DrawnFile::Text() const {
  std::string text;
  for (const std::string& page : Pages()) text += page + " ";
  return text;
}

std::vector<Word> DrawnFile::Words() const {
  static const std::regex kForm(
      "<word xMin=\"([-0-9.]+)\" yMin=\"([-0-9.]+)\" xMax=\"([-0-9.]+)\" yMax=\"([-0-9.]+)\">"
      "(.*)</word>");
  std::istringstream lines(Run("pdftotext -bbox FILE -"));
  std::vector<Word> words;
  int page = 0;
  for (std::string line; std::getline(lines, line);) {
    if (line.find("<page ") != std::string::npos) ++page;
    std::smatch match;
    if (!std::regex_search(line, match, kForm)) continue;
    words.push_back({page, std::stod(match[1]), std::stod(match[2]), std::stod(match[3]),
                     std::stod(match[4]), Unescaped(match[5])});
  }
  return words;
}

std::string DrawnFile::Info(const std::string& name) const {
  std::istringstream lines(Run("TZ=UTC pdfinfo FILE"));
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind(name + ":", 0) != 0) continue;
    const size_t start = line.find_first_not_of(' ', name.size() + 1);
    return start == std::string::npos ? "" : line.substr(start);
  }
  return "";
}

int DrawnFile::PageCount() const { return std::stoi(Info("Pages")); }

std::vector<std::string> DrawnFile::Fonts() const {
  std::istringstream lines(Run("pdffonts FILE"));
  std::vector<std::string> fonts;
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    if (++number <= 2) continue;  // the table's head
    std::string name = line.substr(0, line.find(' '));
    const size_t plus = name.find('+');
    fonts.push_back(plus == std::string::npos ? name : name.substr(plus + 1));
  }
  return fonts;
}

GreyImage DrawnFile::Grey() const {
  const std::string pgm = Run("convert FILE -colorspace Gray -depth 8 pgm:-");
  std::istringstream in(pgm);
  std::string magic;
  int most = 0;
  GreyImage image;
  in >> magic >> image.width >> image.height >> most;
  EXPECT_EQ(magic, "P5");
  EXPECT_EQ(most, 255);
  in.get();
  image.pixels.resize(static_cast<size_t>(image.width) * static_cast<size_t>(image.height));
  in.read(reinterpret_cast<char*>(image.pixels.data()),
          static_cast<std::streamsize>(image.pixels.size()));
  EXPECT_TRUE(in.good());
  return image;
}

}  // namespace rowproof::drawing
