"""The pages. A page's path is `pages/<noun>/`: urls, views (read the journal, build a page), page (what it shows,
rounded and in words), forms (what was typed), and its templates beside them."""
