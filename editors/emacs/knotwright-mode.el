;;; knotwright-mode.el --- Friendship-bracelet patterns as plain text  -*- lexical-binding: t -*-

;; Made from grammar/sources/knotwright-mode.el by `cargo xtask bless'.
;; Version: 0.1.0
;; Package-Requires: ((emacs "28.1"))
;; Keywords: languages
;; URL: https://knotwright.invalid/repository
;; SPDX-License-Identifier: MIT OR Apache-2.0

;;; Commentary:

;; Colors, `knotwright serve' for eglot, M-x compile, and commands that show the band, its instructions and its thread.

;;; Code:

(require 'browse-url)
(require 'compile)

(declare-function eglot-current-server "ext:eglot")
(declare-function eglot--TextDocumentIdentifier "ext:eglot")
(declare-function eglot--pos-to-lsp-position "ext:eglot")
(declare-function jsonrpc-request "jsonrpc")
(defvar eglot-server-programs)

(defgroup knotwright nil "Friendship-bracelet patterns." :group 'languages)

(defcustom knotwright-program "knotwright"
  "The program that ties patterns and serves editors."
  :type 'string :risky t)

(defconst knotwright--name "[[:alpha:]][[:alnum:]_]*\\(?:-[[:alnum:]_]+\\)*")
(defconst knotwright--first "\\(?:^\ufeff?\\|{\\)[ \t]*"
  "What stands before the first word of a statement.")

(defun knotwright--word (words)
  "A regexp for one of WORDS that stands alone."
  (concat "\\_<" (regexp-opt words t) "\\_>"))

(defun knotwright--within (head words)
  "A matcher for WORDS in the rest of a line whose statement begins with HEAD."
  `(,(concat knotwright--first head "\\_>")
    (,words nil nil (0 font-lock-keyword-face))))

(defun knotwright--chart (limit)
  "The marks of the next row of knots before LIMIT."
  (knotwright--row limit "[\\/<>.x#]+" "rows\\|leader"))

(defun knotwright--face (limit)
  "The letters of the next row of a face before LIMIT."
  (knotwright--row limit "[.?]\\|[[:alpha:]]+" "face"))

(defun knotwright--row (limit marks head)
  "The next MARKS before LIMIT in a chart whose statement begins with HEAD."
  (let (found)
    (while (and (not found) (re-search-forward marks limit t))
      (let ((state (save-match-data (save-excursion (syntax-ppss (match-beginning 0))))))
        (setq found (and (not (nth 8 state)) (nth 1 state)
                         (save-match-data
                           (save-excursion
                             (goto-char (nth 1 state))
                             (skip-chars-backward "^\n{")
                             (looking-at (concat "[ \t]*\\(?:" head "\\)\\_>.*{"))))))))
    found))

(defun knotwright--shade (limit)
  "The next color of a thread before LIMIT that begins a line, as the one before it ended with a comma."
  (let (found)
    (while (and (not found)
                (re-search-forward (concat "^[ \t]*\\(#[[:xdigit:]]+\\|" knotwright--name "\\)[ \t]+[0-9.]+[ \t]+"
                                           (knotwright--word '("cm" "in" "mm" "m")))
                                   limit t))
      (setq found (save-match-data
                    (save-excursion
                      (goto-char (match-beginning 0))
                      (skip-chars-backward " \t\n")
                      (eq (char-before) ?,)))))
    found))

(defconst knotwright--shades
  `(,(concat "\\(?:,[ \t]*\\(#[[:xdigit:]]+\\|" knotwright--name "\\)[ \t]+\\)?[0-9.]+[ \t]+"
             (knotwright--word '("cm" "in" "mm" "m")))
    nil nil (1 font-lock-constant-face nil t) (2 font-lock-type-face))
  "A matcher for the colors of a thread in the rest of a line, with how far each goes.")

(defvar knotwright-font-lock-keywords
  (let ((name knotwright--name) (first knotwright--first))
    `((,(concat first "\\(thread\\)[ \t]+\\(" name "\\)[ \t]+\\(#[[:xdigit:]]+\\|" name "\\)")
       (1 font-lock-keyword-face) (2 font-lock-variable-name-face) (3 font-lock-constant-face)
       ,knotwright--shades)
      (knotwright--shade (1 font-lock-constant-face) (2 font-lock-type-face) ,knotwright--shades)
      (,(concat first "\\(bead\\)[ \t]+\\(" name "\\)[ \t]+\\(on\\)\\_>")
       (1 font-lock-keyword-face) (2 font-lock-variable-name-face) (3 font-lock-keyword-face))
      (,(concat first "\\(bead\\)[ \t]+\\(" name "\\)[ \t]+\\(#[[:xdigit:]]+\\|" name "\\)[ \t]")
       (1 font-lock-keyword-face) (2 font-lock-variable-name-face) (3 font-lock-constant-face)
       (,(concat "[0-9][ \t]+" (knotwright--word '("cm" "in" "mm" "m"))) nil nil (1 font-lock-type-face)))
      (,(concat first "bead\\_>")
       (,(concat (knotwright--word '("cm" "in" "mm" "m")) "[ \t]+\\(hole\\)\\_>") nil nil (2 font-lock-keyword-face)))
      (knotwright--chart 0 font-lock-builtin-face)
      (knotwright--face 0 font-lock-builtin-face)
      (,(concat first "\\(motif\\|work\\)[ \t]+\\(" name "\\)") (1 font-lock-keyword-face) (2 font-lock-function-name-face))
      (,(concat first "\\(for\\)[ \t]+\\(" name "\\)") (1 font-lock-keyword-face) (2 font-lock-variable-name-face))
      (,(concat first "\\(face\\)\\_>\\(?:[ \t]+\\(offset\\)\\_>\\)?") (1 font-lock-keyword-face) (2 font-lock-keyword-face nil t)
       (,(concat "\\_<\\([[:alpha:]]\\)[ \t]+\\(" name "\\)") nil nil (1 font-lock-builtin-face) (2 font-lock-variable-name-face)))
      (,(concat first "\\(expect\\)[ \t]+\\(face\\)[ \t]+\\(?:\\(mirror\\)\\|\\(turn\\|flip\\)\\)\\_>")
       (1 font-lock-keyword-face) (2 font-lock-keyword-face) (3 font-lock-builtin-face nil t) (4 font-lock-keyword-face nil t))
      (,(concat first "\\(rows\\)[ \t]+\\(offset\\)[ \t]*{") (1 font-lock-keyword-face) (2 font-lock-keyword-face))
      (,(concat first "\\(expect\\)[ \t]+start[ \t]+\\(mirrored\\)") (1 font-lock-keyword-face) (2 font-lock-keyword-face))
      (,(concat first "[0-9]+[ \t]+\\(knots\\|rows\\)[ \t]+\\(use\\|measure\\)\\_>")
       (1 font-lock-keyword-face) (2 font-lock-keyword-face))
      (,(concat first "[0-9]+[ \t]+\\(tex\\)\\_>") 1 font-lock-keyword-face)
      (,(concat first "\\(take\\|join\\)[ \t]+\\(left\\|right\\|center\\)\\_>")
       (1 font-lock-keyword-face) (2 font-lock-builtin-face))
      (,(concat first "\\(take\\|join\\)[ \t]+\\(" name "\\)[ \t]+[0-9(]")
       (1 font-lock-keyword-face) (2 font-lock-variable-name-face))
      (,(concat "\\_<\\(over\\|until\\)[ \t]+\\(" name "\\)") (1 font-lock-builtin-face) (2 font-lock-variable-name-face))
      (,(concat first "\\(closing\\)[ \t]+\\(knot\\)\\_>") (1 font-lock-keyword-face) (2 font-lock-keyword-face))
      (,(concat first "\\(loop\\|tassel\\|plait\\|split\\)[ \t]+[[:alpha:]]") 1 font-lock-variable-name-face)
      (,(concat first (knotwright--word '("colorway" "mirrored" "closing" "license" "opening" "pattern" "section" "strands" "author" "expect" "finish" "leader" "length" "repeat" "tassel" "thread" "about" "begin" "gauge" "motif" "plait" "slide" "split" "start" "twist" "bead" "both" "ends" "face" "join" "knot" "loop" "meet" "note" "rows" "sets" "take" "work" "wrap" "for" "set" "use" "on" "thickness" "then"))) 1 font-lock-keyword-face)
      ,(knotwright--within "start" "\\_<\\(?:loose\\|folded\\|loop\\|pairs\\|side-by-side\\|mirrored\\)\\_>")
      (,(concat first "\\(letters\\)[ \t]+\"") 1 font-lock-keyword-face)
      ,(knotwright--within "letters" "\\_<\\(?:across\\|height\\)\\_>")
      ,(knotwright--within "\\(?:plait\\|twist\\)" "\\_<for\\_>")
      ,(knotwright--within "join" "\\_<\\(?:with[ \t]\\|in[ \t]+set[ \t]\\)")
      (,(concat first "\\(?:wrap\\|slide\\)\\_>") ("[0-9][ \t]+\\(turns\\)\\_>" nil nil (1 font-lock-keyword-face)))
      ,(knotwright--within "pattern" "\\_<edition\\_>")
      ,(knotwright--within "\\(?:take\\|then\\)" "\\_<then[ \t]")
      (,(concat first "use\\_>")
       (,(concat "\\_<\\(?:from\\_>\\|\\(" name "\\)\\)") nil nil (1 font-lock-function-name-face nil t)))
      (,(concat "\\_<\\(as\\)[ \t]+\\(" name "\\)[ \t]*:") (1 font-lock-keyword-face) (2 font-lock-variable-name-face))
      (")[ \t]+\\(on\\)[ \t]+[0-9]" 1 font-lock-keyword-face)
      (")[ \t]+\\(mirrored\\)\\_>" 1 font-lock-keyword-face)
      (,(concat "\\_<\\(?:length\\|ends\\|thickness\\|use\\|measure\\|loop\\|tassel\\|for\\)[ \t]+[0-9.]+[ \t]+"
                (knotwright--word '("cm" "in" "mm" "m")))
       1 font-lock-type-face)
      ("\\_<\\(down\\|up\\)[ \t]+to\\_>" 1 font-lock-builtin-face)
      ("\\_<\\(of\\)[ \t]+center\\_>" 1 font-lock-builtin-face)
      (,(knotwright--word '("backward-forward" "forward-backward" "backward" "forward")) 0 font-lock-type-face)
      (,(knotwright--word '("center" "inside" "mirror" "right" "start" "until" "edge" "from" "left" "over" "by" "to")) 0 font-lock-builtin-face)
      ("\\_<[0-9]+\\(?:\\.[0-9]+\\)?\\_>" 0 font-lock-constant-face)
      (,(concat "\\_<" name) 0 font-lock-variable-name-face)))
  "Words by what they do, names by what they name; the first that fits holds.")

(defvar knotwright-mode-syntax-table
  (let ((table (make-syntax-table)))
    (modify-syntax-entry ?\n ">" table)
    (modify-syntax-entry ?- "_" table)
    (modify-syntax-entry ?\ufeff " " table)
    (modify-syntax-entry ?. "_" table)
    (dolist (sign '(?< ?> ?/ ?# ?| ?+ ?*)) (modify-syntax-entry sign "." table))
    table))

(defconst knotwright--propertize
  (syntax-propertize-rules
   ;; `--' begins a comment at the start of a line or after a space; a backslash is one only in a string.
   ("\\(?:^\ufeff?\\|[ \t]\\)\\(-\\)-" (1 (unless (nth 3 (save-excursion (syntax-ppss (match-beginning 1)))) (string-to-syntax "<"))))
   ("\\\\" (0 (unless (nth 3 (save-excursion (syntax-ppss (match-beginning 0)))) (string-to-syntax "."))))))

;;;###autoload
(define-derived-mode knotwright-mode prog-mode "Knotwright"
  "For patterns of friendship bracelets."
  (setq-local comment-start "-- " comment-start-skip "--+[ \t]*")
  (setq-local indent-tabs-mode nil indent-line-function #'knotwright-indent-line)
  (setq-local syntax-propertize-function knotwright--propertize)
  (setq-local font-lock-defaults '(knotwright-font-lock-keywords))
  (when buffer-file-name
    (setq-local compile-command
                (concat knotwright-program " check --format short " (shell-quote-argument buffer-file-name)))))

(defun knotwright-indent-line ()
  "Two spaces for every brace that is open."
  (interactive)
  (let* ((closes (save-excursion (back-to-indentation) (looking-at "}")))
         (depth (save-excursion (car (syntax-ppss (line-beginning-position)))))
         (column (* 2 (max 0 (if closes (1- depth) depth)))))
    (if (<= (current-column) (current-indentation))
        (indent-line-to column)
      (save-excursion (indent-line-to column)))))

;;;###autoload
(add-to-list 'auto-mode-alist '("\\.knot\\'" . knotwright-mode))

(with-eval-after-load 'eglot
  (add-to-list 'eglot-server-programs
               `(knotwright-mode . ,(lambda (&rest _) (list knotwright-program "serve")))))

(defun knotwright--ask (command &rest arguments)
  "What the server answers to COMMAND at point, with further ARGUMENTS."
  (require 'eglot)
  (let ((server (or (eglot-current-server) (user-error "No server here: M-x eglot starts it"))))
    (jsonrpc-request server :workspace/executeCommand
                     (list :command command
                           :arguments (vector (append (list :uri (plist-get (eglot--TextDocumentIdentifier) :uri)
                                                            :position (eglot--pos-to-lsp-position))
                                                      arguments))))))

(defun knotwright--page (answer)
  "Show the Markdown of ANSWER in a window of its own."
  (with-current-buffer (get-buffer-create "*Knotwright*")
    (let ((inhibit-read-only t))
      (erase-buffer)
      (insert (plist-get answer :markdown)))
    (goto-char (point-min))
    (special-mode)
    (display-buffer (current-buffer))))

;;;###autoload
(defun knotwright-picture ()
  "Show the band at point as a picture: in Emacs if it can, else in a browser."
  (interactive)
  (let* ((answer (knotwright--ask "knotwright.picture"))
         (file (make-temp-file "knotwright-" nil ".svg" (plist-get answer :svg))))
    (if (and (display-graphic-p) (image-type-available-p 'svg))
        (display-buffer (find-file-noselect file))
      (browse-url-of-file file))
    file))

;;;###autoload
(defun knotwright-words ()
  "Show the instructions for the pattern at point."
  (interactive)
  (knotwright--page (knotwright--ask "knotwright.words")))

;;;###autoload
(defun knotwright-thread ()
  "Show how much thread to cut for the pattern at point."
  (interactive)
  (knotwright--page (knotwright--ask "knotwright.thread")))

;;;###autoload
(defun knotwright-preview ()
  "Show the band in a browser, where it follows the text."
  (interactive)
  (browse-url (plist-get (knotwright--ask "knotwright.preview") :url)))

(provide 'knotwright-mode)
;;; knotwright-mode.el ends here
