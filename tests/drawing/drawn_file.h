// A drawn file on disk and what other people's tools say about it. A tool that is missing or fails
// fails the test.
#ifndef ROWPROOF_TESTS_DRAWING_DRAWN_FILE_H_
#define ROWPROOF_TESTS_DRAWING_DRAWN_FILE_H_

#include <string>
#include <vector>

namespace rowproof::drawing {

struct Word {
  int page = 0;  // from 1
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
  std::string text;
  double middle() const { return (top + bottom) / 2; }
};

struct GreyImage {
  int width = 0;
  int height = 0;
  std::vector<unsigned char> pixels;  // 0 black, 255 white
  int at(int x, int y) const {
    return pixels[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
  }
};

class DrawnFile {
 public:
  // Written to a fresh file with this ending (".pdf").
  DrawnFile(const std::string& bytes, const std::string& ending);
  ~DrawnFile();
  DrawnFile(const DrawnFile&) = delete;
  DrawnFile& operator=(const DrawnFile&) = delete;

  // Standard output of `command` with the file's path in place of "FILE"; it must succeed.
  std::string Run(const std::string& command) const;

  // pdftotext -layout, a text a page, white space of any length as one blank.
  std::vector<std::string> Pages() const;
  // All pages in one.
  std::string Text() const;
  // pdftotext -bbox.
  std::vector<Word> Words() const;
  // The value of one line of pdfinfo.
  std::string Info(const std::string& name) const;
  int PageCount() const;
  // Names in pdffonts without their subset's prefix.
  std::vector<std::string> Fonts() const;
  // The picture in grey, as ImageMagick turns it.
  GreyImage Grey() const;

 private:
  std::string path_;
};

}  // namespace rowproof::drawing

#endif  // ROWPROOF_TESTS_DRAWING_DRAWN_FILE_H_
