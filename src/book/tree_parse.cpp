#include <algorithm>
#include <cstdint>
#include <utility>

#include "book/tree.hpp"

namespace portwright::book {
namespace {

using base::ErrorCode;
using base::Result;

/// Length of the UTF-8 sequence that starts `bytes`, 0 when it is none (overlong, surrogate, beyond U+10FFFF, cut off).
std::size_t sequence_length(std::string_view bytes) {
  const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i]); };
  const unsigned char first = at(0);
  if (first < 0x80) return 1;
  const std::size_t length = first < 0xc2 ? 0 : first < 0xe0 ? 2 : first < 0xf0 ? 3 : first < 0xf5 ? 4 : 0;
  if (length == 0 || bytes.size() < length) return 0;
  for (std::size_t i = 1; i < length; ++i)
    if ((at(i) & 0xc0U) != 0x80) return 0;
  const unsigned char second = at(1);
  const bool bad = (first == 0xe0 && second < 0xa0) || (first == 0xed && second > 0x9f) ||
                   (first == 0xf0 && second < 0x90) || (first == 0xf4 && second > 0x8f);
  return bad ? 0 : length;
}

void append_utf8(std::uint32_t code, std::string& out) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (code < 0x80) {
    put(code);
  } else if (code < 0x800) {
    put(0xc0U | code >> 6U);
    put(0x80U | (code & 0x3fU));
  } else if (code < 0x10000) {
    put(0xe0U | code >> 12U);
    put(0x80U | (code >> 6U & 0x3fU));
    put(0x80U | (code & 0x3fU));
  } else {
    put(0xf0U | code >> 18U);
    put(0x80U | (code >> 12U & 0x3fU));
    put(0x80U | (code >> 6U & 0x3fU));
    put(0x80U | (code & 0x3fU));
  }
}

class Parser {
 public:
  Parser(std::string_view json, int deepest) : json_(json), deepest_(deepest) {}

  Result<Tree> whole() {
    Result<Tree> tree = value(0);
    if (!tree) return tree;
    skip_space();
    if (at_ < json_.size()) return wrong("something follows the value");
    return tree;
  }

 private:
  tl::unexpected<base::Error> wrong(const std::string& what) const {
    return base::fail(ErrorCode::usage, "not a tree of the book: " + what + " at byte " + std::to_string(at_));
  }
  void skip_space() {
    while (at_ < json_.size() && std::string_view(" \t\r\n").find(json_[at_]) != std::string_view::npos) ++at_;
  }
  char peek() const { return at_ < json_.size() ? json_[at_] : '\0'; }
  bool take(char c) {
    skip_space();
    if (peek() != c || at_ >= json_.size()) return false;
    ++at_;
    return true;
  }
  bool take_word(std::string_view word) {
    if (json_.substr(at_, word.size()) != word) return false;
    at_ += word.size();
    return true;
  }

  Result<Tree> value(int depth) {
    skip_space();
    Tree tree;
    if (peek() == '{') return branch(depth);
    if (peek() == '[') return list();
    if (peek() == '"') {
      Result<std::string> text = string();
      if (!text) return tl::unexpected(text.error());
      tree.kind = Tree::Kind::text;
      tree.text = std::move(*text);
      return tree;
    }
    tree.kind = Tree::Kind::flag;
    if (take_word("false")) return tree;
    tree.flag = take_word("true");
    if (tree.flag) return tree;
    return wrong("an object, a text, a list of texts, true or false is needed (a number is written as a text)");
  }

  Result<Tree> list() {
    Tree tree;
    tree.kind = Tree::Kind::list;
    ++at_;
    if (take(']')) return tree;
    for (;;) {
      skip_space();
      if (peek() != '"') return wrong("a list holds texts only");
      Result<std::string> text = string();
      if (!text) return tl::unexpected(text.error());
      tree.list.push_back(std::move(*text));
      if (take(']')) return tree;
      if (!take(',')) return wrong("a comma or the end of the list is missing");
    }
  }

  Result<Tree> branch(int depth) {
    if (depth >= deepest_) return wrong("deeper than " + std::to_string(deepest_) + " branches");
    Tree tree;
    ++at_;
    if (take('}')) return tree;
    for (;;) {
      Result<Part> next = part(depth);
      if (!next) return tl::unexpected(next.error());
      tree.parts.push_back(std::move(*next));
      if (take('}')) return in_order(std::move(tree));
      if (!take(',')) return wrong("a comma or the end of the object is missing");
    }
  }

  Result<Part> part(int depth) {
    skip_space();
    if (peek() != '"') return wrong("a name is needed");
    Result<std::string> name = string();
    if (!name) return tl::unexpected(name.error());
    if (!is_path(*name) || name->find('.') != std::string::npos) return wrong("a name is not of a to z, 0 to 9 and _");
    if (!take(':')) return wrong("a colon is missing");
    Result<Tree> tree = value(depth + 1);
    if (!tree) return tl::unexpected(tree.error());
    return Part{std::move(*name), std::move(*tree)};
  }

  Result<Tree> in_order(Tree tree) const {
    auto& parts = tree.parts;
    std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.name < b.name; });
    const auto twice =
        std::adjacent_find(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.name == b.name; });
    if (twice != parts.end()) return wrong("\u201C" + twice->name + "\u201D is given twice before");
    std::erase_if(parts, [](const Part& part) { return part.tree.empty_branch(); });
    return tree;
  }

  Result<std::string> string() {
    std::string out;
    ++at_;
    while (at_ < json_.size()) {
      const auto byte = static_cast<unsigned char>(json_[at_]);
      if (byte == '"') {
        ++at_;
        return out;
      }
      if (byte == '\\') {
        if (!escape(out)) return wrong("an escape that JSON does not have, or a NUL");
        continue;
      }
      const std::size_t length = sequence_length(json_.substr(at_));
      if (byte < 0x20 || length == 0) return wrong("a control letter, or not UTF-8");
      out += json_.substr(at_, length);
      at_ += length;
    }
    return wrong("a text has no end");
  }

  bool escape(std::string& out) {
    static constexpr std::string_view from = "\"\\/bfnrt";
    static constexpr std::string_view to = "\"\\/\b\f\n\r\t";
    ++at_;
    if (peek() == 'u') {
      ++at_;
      return unicode(out);
    }
    const std::size_t which = at_ < json_.size() ? from.find(json_[at_]) : std::string_view::npos;
    if (which == std::string_view::npos) return false;
    out += to[which];
    ++at_;
    return true;
  }

  bool unicode(std::string& out) {
    std::uint32_t code = 0;
    if (!four_digits(code) || code == 0) return false;
    if (code >= 0xdc00 && code < 0xe000) return false;
    if (code >= 0xd800 && code < 0xdc00) {
      std::uint32_t low = 0;
      if (!take_word("\\u") || !four_digits(low) || low < 0xdc00 || low >= 0xe000) return false;
      code = 0x10000 + ((code - 0xd800) << 10U) + (low - 0xdc00);
    }
    append_utf8(code, out);
    return true;
  }

  bool four_digits(std::uint32_t& code) {
    for (int i = 0; i < 4; ++i, ++at_) {
      const char c = peek();
      const int digit = c >= '0' && c <= '9'   ? c - '0'
                        : c >= 'a' && c <= 'f' ? c - 'a' + 10
                        : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                               : -1;
      if (digit < 0) return false;
      code = code << 4U | static_cast<std::uint32_t>(digit);
    }
    return true;
  }

  std::string_view json_;
  int deepest_;
  std::size_t at_ = 0;
};

}  // namespace

bool is_text(std::string_view bytes) {
  while (!bytes.empty()) {
    const std::size_t length = sequence_length(bytes);
    if (length == 0 || bytes.front() == '\0') return false;
    bytes.remove_prefix(length);
  }
  return true;
}

base::Result<Tree> parse_tree(std::string_view json, int deepest) {
  if (json.size() > longest_tree)
    return base::fail(ErrorCode::usage,
                      "not a tree of the book: longer than " + std::to_string(longest_tree) + " bytes");
  return Parser(json, deepest).whole();
}

}  // namespace portwright::book
