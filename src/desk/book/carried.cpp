#include "desk/book/carried.hpp"

#include <array>
#include <charconv>
#include <functional>

#include "book/tree.hpp"
#include "desk/book/saw_tree.hpp"

namespace portwright::desk {
namespace {

constexpr const char* folder_format = "portwright book 1";
constexpr int deepest_line = book::deepest_tree + 4;

base::Error broken(std::size_t line, const std::string& what) {
  return {base::ErrorCode::damaged, "Line " + std::to_string(line) + ' ' + what + '.', "", "", {}};
}

void put_text(book::Tree& out, const char* name, const std::string& text) { put_part(out, name, text_leaf(text)); }
void put_number(book::Tree& out, const char* name, std::int64_t number) { put_text(out, name, std::to_string(number)); }
void put_flag(book::Tree& out, const char* name, bool is_set) {
  if (is_set) put_text(out, name, "yes");
}

std::int64_t number_at(const book::Tree& tree, const char* name) {
  const std::string text = text_at(tree, name);
  std::int64_t out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc() && end == text.data() + text.size() ? out : -1;
}

// Values may be empty texts, so that they are leaves of their own: "-" is none.
void put_value(book::Tree& out, const char* name, const std::optional<std::string>& json) {
  put_text(out, name, json ? "=" + *json : "-");
}
std::optional<std::string> value_at(const book::Tree& tree, const char* name) {
  const std::string text = text_at(tree, name);
  return text.starts_with('=') ? std::optional(text.substr(1)) : std::nullopt;
}

book::Tree document_tree(const book::Document& document) {
  book::Tree out;
  put_text(out, "id", document.id);
  put_text(out, "kind", document.kind);
  put_text(out, "belongs_to", document.belongs_to);
  put_flag(out, "hidden", document.hidden_itself);
  put_text(out, "created", document.created);
  put_text(out, "changed", document.changed);
  put_text(out, "author", document.author);
  if (auto body = book::parse_tree(document.body)) put_part(out, "body", std::move(*body));
  return out;
}

book::Document document_from(const book::Tree& tree) {
  book::Document out;
  out.id = text_at(tree, "id");
  out.kind = text_at(tree, "kind");
  out.belongs_to = text_at(tree, "belongs_to");
  out.hidden_itself = text_at(tree, "hidden") == "yes";
  out.created = text_at(tree, "created");
  out.changed = text_at(tree, "changed");
  out.author = text_at(tree, "author");
  const book::Tree* body = book::find(tree, "body");
  out.body = body ? book::print(*body) : "{}";
  if (body) out.title = text_at(*body, "name");
  return out;
}

bool is_document(const book::Document& document) { return !document.id.empty() && !document.kind.empty(); }

// Calls `one` with every line as a tree.
base::Result<void> each_line(std::string_view lines,
                             const std::function<base::Result<void>(book::Tree, std::size_t)>& one) {
  std::size_t number = 0;
  while (!lines.empty()) {
    ++number;
    const std::size_t end = std::min(lines.find('\n'), lines.size());
    auto tree = book::parse_tree(lines.substr(0, end), deepest_line);
    if (!tree) return tl::unexpected(broken(number, "is not JSON of a book: " + tree.error().message));
    if (auto taken = one(std::move(*tree), number); !taken) return taken;
    lines.remove_prefix(std::min(end + 1, lines.size()));
  }
  return {};
}

}  // namespace

std::string journal_lines(const std::vector<book::Action>& actions) {
  std::string out;
  for (const book::Action& action : actions) {
    book::Tree line;
    put_number(line, "action", action.number);
    put_number(line, "root", action.root);
    put_text(line, "author", action.author);
    put_text(line, "at", action.at);
    put_text(line, "label", action.label);
    put_text(line, "token", action.token);
    put_flag(line, "off_stack", action.off_stack);
    out += book::print(line) + '\n';
    for (const book::Entry& entry : action.entries) {
      book::Tree below;
      put_number(below, "entry", entry.sequence);
      put_text(below, "document", entry.document);
      put_text(below, "path", entry.path);
      put_value(below, "before", entry.before);
      put_value(below, "after", entry.after);
      put_text(below, "chain", entry.chain);
      out += book::print(below) + '\n';
    }
  }
  return out;
}

base::Result<std::vector<book::Action>> actions_from(std::string_view lines) {
  std::vector<book::Action> out;
  const auto taken = each_line(lines, [&](const book::Tree& line, std::size_t number) -> base::Result<void> {
    if (book::find(line, "action") != nullptr) {
      book::Action& action = out.emplace_back();
      action.number = number_at(line, "action");
      action.root = number_at(line, "root");
      action.author = text_at(line, "author");
      action.at = text_at(line, "at");
      action.label = text_at(line, "label");
      action.token = text_at(line, "token");
      action.off_stack = text_at(line, "off_stack") == "yes";
      return action.number > 0 && action.root > 0 ? base::Result<void>()
                                                  : tl::unexpected(broken(number, "is no action"));
    }
    if (out.empty() || number_at(line, "entry") <= 0) return tl::unexpected(broken(number, "is no entry of an action"));
    out.back().entries.push_back({number_at(line, "entry"), text_at(line, "document"), text_at(line, "path"),
                                  value_at(line, "before"), value_at(line, "after"), text_at(line, "chain")});
    return {};
  });
  if (!taken) return tl::unexpected(taken.error());
  return out;
}

std::string document_lines(const std::vector<book::Document>& documents) {
  std::string out;
  for (const book::Document& document : documents) out += book::print(document_tree(document)) + '\n';
  return out;
}

base::Result<std::vector<book::Document>> documents_from(std::string_view lines) {
  std::vector<book::Document> out;
  const auto taken = each_line(lines, [&](const book::Tree& line, std::size_t number) -> base::Result<void> {
    out.push_back(document_from(line));
    return is_document(out.back()) ? base::Result<void>() : tl::unexpected(broken(number, "is no document"));
  });
  if (!taken) return tl::unexpected(taken.error());
  return out;
}

std::string book_line(const std::string& id, const std::vector<std::string>& facets) {
  book::Tree line;
  put_text(line, "format", folder_format);
  put_text(line, "book", id);
  put_part(line, "facets", list_leaf(facets));
  return book::print(line) + '\n';
}

base::Result<BookLine> book_from(std::string_view line) {
  while (line.ends_with('\n')) line.remove_suffix(1);
  const auto tree = book::parse_tree(line);
  if (!tree || text_at(*tree, "format") != folder_format)
    return base::fail(base::ErrorCode::unknown_format,
                      "book.json does not say \u201C" + std::string(folder_format) + "\u201D.", {},
                      "Only what portwright book export wrote can be imported.");
  const book::Tree* facets = book::find(*tree, "facets");
  return BookLine{text_at(*tree, "book"), facets ? facets->list : std::vector<std::string>{}};
}

std::string csv_cell(const std::string& text) {
  std::string out = "\"";
  if (!text.empty() && std::string_view("=+-@\t\r").find(text[0]) != std::string_view::npos) out += '\'';
  for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
  return out + '"';
}

namespace {
constexpr std::string_view letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
}

std::string to_base64(std::string_view bytes) {
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const std::size_t count = std::min<std::size_t>(3, bytes.size() - i);
    unsigned group = 0;
    for (std::size_t k = 0; k < 3; ++k)
      group = group << 8U | (k < count ? static_cast<unsigned char>(bytes[i + k]) : 0U);
    for (std::size_t k = 0; k < 4; ++k) out += k <= count ? letters[group >> (18U - 6U * k) & 63U] : '=';
  }
  return out;
}

std::optional<std::string> from_base64(std::string_view text) {
  if (text.size() % 4 != 0) return std::nullopt;
  std::string out;
  for (std::size_t i = 0; i < text.size(); i += 4) {
    unsigned group = 0;
    std::size_t count = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      const char c = text[i + k];
      const std::size_t value = letters.find(c);
      const bool fill = c == '=' && k >= 2 && i + 4 == text.size();
      if (!fill && (value == std::string_view::npos || count < k)) return std::nullopt;
      group = group << 6U | (fill ? 0U : static_cast<unsigned>(value));
      count += fill ? 0 : 1;
    }
    if (count < 2 || (group & ((1U << (24U - 8U * static_cast<unsigned>(count - 1))) - 1U)) != 0U) return std::nullopt;
    for (std::size_t k = 0; k + 1 < count; ++k) out += static_cast<char>(group >> (16U - 8U * k) & 0xFFU);
  }
  return out;
}

}  // namespace portwright::desk
