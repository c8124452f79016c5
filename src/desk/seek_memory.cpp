#include "desk/seek_memory.hpp"

#include <charconv>
#include <cmath>
#include <string_view>

#include "book/book.hpp"

namespace portwright::desk {
namespace {

constexpr std::size_t most_designs = 4000, gains = 4;
constexpr std::string_view mark = "portwright seek 1";

std::string head_of(const std::string& of, std::size_t free) {
  return std::string(mark) + ' ' + book::hash_of(of) + ' ' + std::to_string(free);
}

void put(std::string& out, double value) {
  char digits[32];
  const auto end = std::to_chars(digits, digits + sizeof digits, value);
  out += ' ';
  out.append(digits, end.ptr);
}

bool number(std::string_view& from, double& to) {
  while (!from.empty() && from.front() == ' ') from.remove_prefix(1);
  const auto read = std::from_chars(from.data(), from.data() + from.size(), to);
  if (read.ec != std::errc() || !std::isfinite(to)) return false;
  from.remove_prefix(static_cast<std::size_t>(read.ptr - from.data()));
  return true;
}

bool row_of(std::string_view line, std::size_t free, seek::Tried& out) {
  double possible = 0.0;
  if (!number(line, possible)) return false;
  out.judged.possible = possible != 0.0;
  out.design.resize(free);
  out.judged.gains.resize(gains);
  for (double& share : out.design)
    if (!number(line, share) || share < 0.0 || share > 1.0) return false;
  for (double& gain : out.judged.gains)
    if (!number(line, gain)) return false;
  for (double hold = 0.0; number(line, hold);) out.judged.holds.push_back(hold);
  return line.find_first_not_of(' ') == std::string_view::npos;
}

}  // namespace

std::string memory_text(const std::string& of, const std::vector<seek::Tried>& tried) {
  if (tried.empty()) return {};
  std::string out = head_of(of, tried.front().design.size());
  for (const seek::Tried& one : tried) {
    out += '\n';
    out += one.judged.possible ? '1' : '0';
    for (const double share : one.design) put(out, share);
    for (const double gain : one.judged.gains) put(out, gain);
    for (const double hold : one.judged.holds) put(out, hold);
  }
  return out;
}

base::Result<std::vector<seek::Tried>> memory_of(const std::string& text, const std::string& of, std::size_t free) {
  std::vector<seek::Tried> out;
  if (text.empty()) return out;
  const auto refuse = [](const char* why) {
    return base::fail(base::ErrorCode::unreadable, why, "memory", "Begin anew, without it.");
  };
  std::string_view rest = text;
  if (rest.size() > longest_memory || !rest.starts_with(mark))
    return refuse("This is nothing that a search left behind.");
  const auto line = [&] {
    const std::size_t end = rest.find('\n');
    const std::string_view one = rest.substr(0, end);
    rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    return one;
  };
  if (line() != head_of(of, free))
    return refuse("What was tried is of another search: the saw's readings, the wishes or the free cuts were others.");
  while (!rest.empty()) {
    seek::Tried one;
    if (out.size() >= most_designs || !row_of(line(), free, one))
      return refuse("What was tried cannot be read back: a line of it is broken.");
    const std::size_t holds = out.empty() ? one.judged.holds.size() : out.front().judged.holds.size();
    if (one.judged.holds.size() != holds) return refuse("What was tried cannot be read back: its lines differ.");
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace portwright::desk
