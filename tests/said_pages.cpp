#include "said_pages.h"

#include <algorithm>

namespace sheaf::test {

// What stands in a span belongs to the paragraph or the cell around it.
static ElementId owner_of(const Document& document, ElementId element) {
  while (document.element(element).role == Role::span) {
    element = document.element(element).parent;
  }
  return element;
}

std::vector<PageText> texts_of(const Document& document) {
  std::vector<PageText> texts;
  for (const Page& page : document.pages) {
    const std::string sheet = page.label.substr(0, page.label.rfind(' '));
    for (const Mark& mark : page.marks) {
      const auto* glyphs = std::get_if<GlyphMark>(&mark);
      if (glyphs == nullptr || is_artifact(glyphs->element)) continue;
      const ElementId owner = owner_of(document, glyphs->element);
      if (texts.empty() || texts.back().element != owner) {
        texts.push_back({sheet, owner, document.element(owner).role, ""});
      }
      texts.back().text += glyphs->run.shape->text;
    }
  }
  return texts;
}

std::vector<std::string> sounds_named_in(std::string_view text) {
  std::vector<std::string> sounds;
  std::size_t open = text.find('/');
  while (open != std::string_view::npos) {
    const std::size_t close = text.find('/', open + 1);
    if (close == std::string_view::npos) break;
    const std::string_view inside = text.substr(open + 1, close - open - 1);
    const bool named =
        !inside.empty() && inside.find(' ') == std::string_view::npos;
    if (named) sounds.emplace_back(inside);
    open = named ? text.find('/', close + 1) : close;
  }
  return sounds;
}

std::map<std::string, std::string> key_of_sounds(
    const std::vector<PageText>& teacher) {
  std::map<std::string, std::string> key;
  auto text = std::ranges::find_if(teacher, [](const PageText& t) {
    return t.sheet == "script" && t.text == "How the sounds are written";
  });
  if (text == teacher.end()) return key;
  std::string_view rest = (++text)->text;
  while (rest.starts_with('/')) {
    const std::size_t close = rest.find('/', 1);
    const std::size_t end = rest.find_first_of(",.", close);
    key.emplace(rest.substr(1, close - 1),
                rest.substr(close + 2, end - close - 2));
    rest.remove_prefix(std::min(end + 2, rest.size()));
  }
  return key;
}

bool stands_in_key(const std::map<std::string, std::string>& key,
                   const std::string& sound) {
  constexpr std::string_view kLetters = "bdfghklmnprstvwz";
  if (key.contains(sound)) return true;
  if (sound.empty() || kLetters.find(sound.back()) == std::string_view::npos) {
    return false;
  }
  // What an ending says is written in one: /id/ of landed.
  return sound.size() == 1 ||
         stands_in_key(key, sound.substr(0, sound.size() - 1));
}

std::vector<SaidSound> said_in_script(const std::vector<PageText>& teacher) {
  std::vector<SaidSound> said;
  for (const PageText& text : teacher) {
    if (text.sheet != "script") continue;
    if (text.text.starts_with("the sound: ")) said.emplace_back();
    constexpr std::string_view kSay = "“";
    const std::size_t heard = text.text.find("I hear ");
    if (said.empty() || !text.text.starts_with(kSay) ||
        heard == std::string::npos) {
      continue;
    }
    const std::string_view rest =
        std::string_view(text.text).substr(kSay.size(), heard - kSay.size());
    const auto sounds = sounds_named_in(rest);
    said.back() = {std::string(rest.substr(0, rest.find('.'))),
                   sounds.empty() ? "" : sounds.front()};
  }
  return said;
}

namespace {

// Blanks that hold words together are read as others.
std::string with_blanks(std::string text) {
  constexpr std::string_view kHolding = "\u00A0";
  for (std::size_t at; (at = text.find(kHolding)) != std::string::npos;) {
    text.replace(at, kHolding.size(), " ");
  }
  return text;
}

}  // namespace

std::vector<Card> cards_of(const std::vector<PageText>& learner) {
  // Behind the head of the page a card has its key word and its grapheme, then
  // a sentence about them.
  std::vector<std::string> texts;
  for (const PageText& text : learner) {
    if (text.sheet != "sound-card" || text.role != Role::paragraph) continue;
    texts.push_back(text.text);
  }
  constexpr std::size_t kHead = 3;  // name, date, direction
  std::vector<Card> cards;
  std::size_t begin = kHead;
  for (std::size_t i = kHead; i < texts.size(); ++i) {
    if (!texts[i].ends_with('.')) continue;
    // Where the word itself stands largest there is no other.
    cards.push_back({texts[begin], texts[i - 1], with_blanks(texts[i])});
    begin = i + 1;
  }
  return cards;
}

}  // namespace sheaf::test
