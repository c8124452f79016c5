#pragma once
// A page of text for a person: 80 columns, counted as a terminal counts them.

#include <string>
#include <string_view>
#include <vector>

namespace portwright::cli {

inline constexpr std::size_t page_width = 80;

/// Columns that a text takes on a terminal: none for combining marks, two for wide letters.
[[nodiscard]] std::size_t columns(std::string_view text);
/// What a terminal may be given: valid UTF-8 without control characters and direction marks.
[[nodiscard]] std::string safe(std::string_view text);
/// The text or its beginning and an ellipsis, filled with blanks to a width.
[[nodiscard]] std::string left(std::string_view text, std::size_t width);
[[nodiscard]] std::string right(std::string_view text, std::size_t width);
/// Lines no wider than `width`, broken at blanks; a longer word is cut.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, std::size_t width);

/// How a word stands out; plain where colour is off.
enum class Ink { plain, bold, faint, changed, caution, stop };

/// One piece of a line.
struct Piece {
  std::string text;
  Ink ink = Ink::plain;
};

class Page {
 public:
  explicit Page(bool coloured) : coloured_(coloured) {}

  /// A line of pieces as they stand; blanks at its end are dropped.
  void line(const std::vector<Piece>& pieces);
  void line(std::string_view text = {}, Ink ink = Ink::plain) { line({Piece{std::string(text), ink}}); }
  /// Bold heading with a word in grey at the right edge.
  void heading(std::string_view text, std::string_view at_right = {});
  void rule();
  /// Wrapped text; the first line begins with `lead`, the rest is set in below it.
  void paragraph(const Piece& lead, std::string_view text, Ink ink = Ink::plain);

  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  [[nodiscard]] std::string painted(const Piece& piece) const;
  bool coloured_;
  std::string text_;
};

}  // namespace portwright::cli
