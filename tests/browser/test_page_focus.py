"""What is typed stays where it is typed, whatever the page does meanwhile."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from page_parts import beside, entry, go_to, wait_until_still


def test_a_piece_just_added_does_not_take_the_focus_out_of_another_field(opened: Page) -> None:
    """The new piece's fields come with the answer, when the person may already be typing elsewhere."""
    go_to(opened, "Drawer")
    opened.get_by_role("button", name="Add a piece").tap()
    field = opened.get_by_label("Search the drawer")
    field.fill("")
    field.press_sequentially("126.5 mm", delay=60)
    field.fill("")
    expect(opened.locator(".piece-editor input").first).to_be_visible()
    expect(field).to_be_focused()
    expect(field).to_have_value("")
    expect(entry(opened, "drawer.34.name")).to_have_value("")


def test_what_was_read_before_does_not_come_and_go_at_a_key(opened: Page) -> None:
    """Until the core has read the new text, the old one's reading says nothing that was not there."""
    go_to(opened, "Drawer")
    opened.locator(".shop .segment").nth(1).click()
    field = entry(opened, "setting.bar_centres")
    field.fill("100.1")
    expect(opened.locator(".band-number")).to_be_enabled()
    # "100.1" beside mm is read as 100.1 mm, which is no news: there are no such words beneath it.
    expect(beside(opened, "setting.bar_centres").locator(".read")).to_have_count(0)
    # Nor is a zero more; another unit is.
    field.fill("3.940 in")
    expect(beside(opened, "setting.bar_centres").locator(".read")).to_have_count(0)
    wait_until_still(opened)
    expect(beside(opened, "setting.bar_centres").locator(".read")).to_have_count(0)
    field.fill("3-15/16 in")
    expect(beside(opened, "setting.bar_centres").locator(".read")).to_have_count(1)
    field.fill("100.1")
    expect(beside(opened, "setting.bar_centres").locator(".read")).to_have_count(0)
    opened.evaluate(
        """() => {
          const field = document.querySelector("[data-field='setting.bar_centres']");
          self.came = 0;
          new MutationObserver(() => { self.came += field.querySelectorAll('.read').length; })
            .observe(field, { childList: true, subtree: true, attributes: true, characterData: true });
        }"""
    )
    lead = opened.locator(".band-number .number").inner_text()
    field.press("End")
    field.press("5")
    expect(opened.locator(".band-number .number")).not_to_have_text(lead)
    assert opened.evaluate("self.came") == 0
    # Enter goes on to the next field; it sends nothing anywhere.
    field.press("Enter")
    expect(field).not_to_be_focused()
    expect(field).to_have_value("100.15")
