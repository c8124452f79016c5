#include "cuts/words.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "base/quantity/normal.hpp"

namespace portwright::cuts {
namespace {

using base::ErrorCode;

// Length of the UTF-8 character at the head; 0 when it is none (overlong, a surrogate, past U+10FFFF, cut short).
std::size_t character_size(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned>(static_cast<unsigned char>(text[i])); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  const std::size_t size = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < size) return 0;
  for (std::size_t i = 1; i < size; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
  }
  const unsigned second = byte(1);
  const bool wrong = (lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) ||
                     (lead == 0xF0 && second < 0x90) || (lead == 0xF4 && second > 0x8F);
  return wrong ? 0 : size;
}

// Blanks and quotation marks of phones in plain form, a character at a time.
constexpr std::pair<std::string_view, char> plain_forms[] = {
    {"\u00A0", ' '}, {"\u2007", ' '}, {"\u2009", ' '}, {"\u202F", ' '}, {"\t", ' '},
    {"\r", '\n'},    {"\u201C", '"'}, {"\u201D", '"'}, {"\u201E", '"'},
};

char plain_form(std::string_view character) {
  if (character.size() == 1 && character[0] != '\t' && character[0] != '\r') return character[0];
  for (const auto& [from, to] : plain_forms) {
    if (character == from) return to;
  }
  return '\0';
}

bool is_sign(std::string_view character) { return character == "\u2212" || character == "\u2013"; }

/// Walks the text a character at a time; `word_` grows until a blank, `phrase_` until a `;`.
class Parter {
 public:
  base::Result<std::vector<Phrase>> part(std::string_view text) {
    while (!text.empty()) {
      const std::size_t size = character_size(text);
      if (size == 0) return base::fail(ErrorCode::bad_cut, "the cut list is not UTF-8 text");
      if (!take(text.substr(0, size), text)) {
        return base::fail(ErrorCode::bad_cut, "the cut list has a control character in it");
      }
      text.remove_prefix(size);
    }
    end_phrase();
    return std::move(phrases_);
  }

 private:
  bool take(std::string_view character, std::string_view rest) {
    const char plain = plain_form(character);
    const bool control = character.size() == 1 && (static_cast<unsigned char>(plain) < 0x20 || plain == 0x7F);
    if (in_quotes_) {
      if (control) return false;
      phrase_.text += character;
      plain == '"' ? end_quote() : void(word_ += character);
      return true;
    }
    if (plain == ';' || plain == '\n') return end_phrase(), true;
    if (control) return false;
    if (plain == ' ') {
      end_word();
    } else if (plain == '"' && opens_quote(rest.substr(character.size()))) {
      in_quotes_ = true;
    } else {
      word_ += word_.empty() && is_sign(character) ? std::string_view("-")
               : plain != '\0'                     ? std::string_view(&plain, 1)
                                                   : character;
    }
    phrase_.text += character;
    return true;
  }

  // Straight after `to`, and with a partner: what stands between is one word.
  bool opens_quote(std::string_view rest) {
    if (!word_.empty() || phrase_.words.empty() || phrase_.words.back().quoted ||
        lower(phrase_.words.back().text) != "to")
      return false;
    const std::size_t line = std::min(rest.find('\n'), rest.size());
    const std::string_view here = rest.substr(0, line);
    const bool closed = here.find('"') != std::string_view::npos || here.find("\u201C") != std::string_view::npos ||
                        here.find("\u201D") != std::string_view::npos;
    phrase_.open_quote = phrase_.open_quote || !closed;
    return closed;
  }

  void end_quote() {
    in_quotes_ = false;
    phrase_.words.push_back({std::exchange(word_, {}), true});
  }
  void end_word() {
    if (!word_.empty()) phrase_.words.push_back({std::exchange(word_, {}), false});
  }
  void end_phrase() {
    if (in_quotes_) phrase_.open_quote = true;
    in_quotes_ = false;
    end_word();
    if (!phrase_.words.empty()) {
      trim(phrase_.text);
      phrases_.push_back(std::move(phrase_));
    }
    phrase_ = {};
  }
  static void trim(std::string& text) {
    const auto blank = [](char c) { return c == ' ' || c == '\t'; };
    while (!text.empty() && blank(text.back())) text.pop_back();
    text.erase(text.begin(), std::find_if_not(text.begin(), text.end(), blank));
  }

  std::vector<Phrase> phrases_;
  Phrase phrase_;
  std::string word_;
  bool in_quotes_ = false;
};

}  // namespace

base::Result<std::vector<Phrase>> part_list(std::string_view text) {
  if (text.size() > longest_list) return base::fail(ErrorCode::bad_cut, "the cut list is longer than 64 KiB");
  auto phrases = Parter().part(text);
  if (phrases && phrases->size() > most_cuts)
    return base::fail(ErrorCode::bad_cut, "the cut list has more than 200 cuts");
  return phrases;
}

std::string lower(std::string_view word) {
  std::string out(word);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

std::string shown(std::string_view text) { return base::typed::quoted(text); }

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) out += (out.empty() ? "" : " ") + word;
  return out;
}

}  // namespace portwright::cuts
